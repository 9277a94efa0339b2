// SPDX-License-Identifier: MIT
#include "caseload/show/evidence.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"

#include <memory>

namespace caseload {
namespace {

struct EvidenceArguments {
    bool json = false;
    bool markdown = false;
};

int run_evidence(const EvidenceArguments& arguments) {
    const Evidence evidence = recompute(published_rows(), calculations());
    print(arguments.json       ? evidence_json(evidence)
          : arguments.markdown ? evidence_markdown(evidence)
                               : evidence_screen(evidence));
    return evidence.fails > 0 ? 1 : 0;
}

}  // namespace

Command evidence_command(Syntax program) {
    Syntax command = program.command(
        "evidence",
        "figures of others recalculated here; code 1 when one that should be is not met");
    const auto arguments = std::make_shared<EvidenceArguments>();
    command.flag("--json", arguments->json, "one JSON document");
    command.flag("--markdown", arguments->markdown, "as docs/validation.md").excludes({"--json"});
    const auto code = std::make_shared<int>(0);
    return {command, [arguments, code] { *code = run_evidence(*arguments); }, code};
}

}  // namespace caseload
