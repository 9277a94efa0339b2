// SPDX-License-Identifier: MIT
#include "cli/cli.hpp"

int main(int argc, char** argv) {
    return caseload::run_program(argc, argv);
}
