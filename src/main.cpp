// SPDX-License-Identifier: MIT
#include "cli/cli.hpp"

#ifdef _WIN32
#include "cli/windows.hpp"

int main() {
    return caseload::run_on_windows();
}
#else
int main(int argc, char** argv) {
    return caseload::run_program(argc, argv);
}
#endif
