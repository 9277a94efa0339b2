// SPDX-License-Identifier: MIT
// Data flows one way. A file includes, directly or through others, only its own layer and those
// before it.
#include "files.hpp"

#include <doctest/doctest.h>

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace layers_tests {

namespace {

struct Layer {
    std::string_view name;
    std::vector<std::string_view> paths;  // a folder ends with a slash
};

/// Upstream first. The evidence stands beside the chain and may use any of it; of the layers only
/// the screen and the program may use the evidence.
const std::vector<Layer>& layers() {
    static const std::vector<Layer> list = {
        {"base",
         {"include/caseload/date.hpp", "include/caseload/error.hpp", "include/caseload/figures.hpp",
          "include/caseload/for_each.hpp", "include/caseload/matrix.hpp",
          "include/caseload/note.hpp", "include/caseload/quantity.hpp",
          "include/caseload/tables.hpp", "include/caseload/units.hpp", "src/date.cpp",
          "src/error.cpp", "src/figures.cpp", "src/for_each.cpp", "src/quantity.cpp", "src/tables/",
          "src/third_party/", "src/units.cpp"}},
        {"formulas", {"include/caseload/formulas/", "src/formulas/"}},
        {"model",
         {"include/caseload/factors.hpp", "include/caseload/housing_metal.hpp",
          "include/caseload/kinds.hpp", "include/caseload/model.hpp",
          "include/caseload/spline_data.hpp"}},
        {"bins", {"src/bins/"}},
        {"pace",
         {"include/caseload/pace.hpp", "include/caseload/pace_car.hpp",
          "include/caseload/pace_duties.hpp", "include/caseload/shocks.hpp", "src/pace/"}},
        {"input", {"include/caseload/input.hpp", "include/caseload/upgrade.hpp", "src/input/"}},
        {"loads", {"include/caseload/loads.hpp", "src/loads/"}},
        {"losses", {"include/caseload/losses.hpp", "src/losses/"}},
        {"heat", {"include/caseload/heat.hpp", "include/caseload/heat_curves.hpp", "src/heat/"}},
        {"damage",
         {"include/caseload/damage.hpp", "include/caseload/seats.hpp",
          "include/caseload/splines.hpp", "include/caseload/teeth.hpp", "src/damage/"}},
        {"checks", {"include/caseload/checks.hpp", "src/checks/"}},
        {"intervals",
         {"include/caseload/intervals.hpp", "include/caseload/parts.hpp", "src/intervals/"}},
        {"assess", {"include/caseload/assess.hpp", "src/assess/"}},
        {"duty", {"include/caseload/duty/", "src/duty/"}},
        {"ask", {"include/caseload/ask/", "src/ask/"}},
        {"book", {"include/caseload/book/", "src/book/"}},
        {"why", {"include/caseload/why.hpp", "src/why/"}},
        {"evidence", {"include/caseload/evidence.hpp", "src/evidence/"}},
        {"show", {"include/caseload/show/", "src/show/"}},
        {"live", {"src/live/"}},
        {"cli", {"src/cli/", "src/main.cpp"}}};
    return list;
}

std::optional<std::size_t> layer_of(const std::string& file) {
    for (std::size_t k = 0; k < layers().size(); ++k)
        for (const std::string_view path : layers()[k].paths)
            if (path.back() == '/' ? file.rfind(path, 0) == 0 : file == path) return k;
    return std::nullopt;
}

using Tree = std::map<std::string, std::string>;  // path from the root of the project to text

/// The project's file behind the name in an include line, as the compiler looks for it: beside the
/// including file, then in the include folders. Empty for a header of the system.
std::string resolved(const Tree& tree, const std::string& from, const std::string& name) {
    for (const std::string& folder :
         {from.substr(0, from.rfind('/') + 1), std::string("include/"), std::string("src/")})
        if (tree.count(folder + name) == 1) return folder + name;
    return {};
}

struct Includes {
    std::vector<std::string> files;
    std::vector<std::string> not_found;
};

Includes includes_of(const Tree& tree, const std::string& file) {
    Includes found;
    for (const std::string& line : test_files::lines(tree.at(file))) {
        const std::size_t hash = line.find_first_not_of(" \t");
        if (hash == std::string::npos || line[hash] != '#') continue;
        const std::size_t word = line.find_first_not_of(" \t", hash + 1);
        if (word == std::string::npos || line.compare(word, 7, "include") != 0) continue;
        const std::size_t open = line.find_first_of("\"<", word);
        const std::size_t close = line.find_first_of("\">", open + 1);
        if (open == std::string::npos || close == std::string::npos) {
            found.not_found.push_back(line);
            continue;
        }
        const std::string name = line.substr(open + 1, close - open - 1);
        const std::string target = resolved(tree, file, name);
        if (!target.empty())
            found.files.push_back(target);
        else if (line[open] == '"')
            found.not_found.push_back(name);
    }
    return found;
}

/// Depth first; a file that stands too far downstream is reported with the way to it, once, and
/// not followed.
void follow(const Tree& tree, std::size_t allowed, std::vector<std::string>& chain,
            std::set<std::string>& seen, std::vector<std::string>& problems) {
    for (const std::string& next : includes_of(tree, chain.back()).files) {
        if (!seen.insert(next).second) continue;
        chain.push_back(next);
        const std::optional<std::size_t> layer = layer_of(next);
        if (layer && *layer > allowed) {
            std::string way = "layer " + std::string(layers()[allowed].name) + " reaches layer " +
                              std::string(layers()[*layer].name) + ": " + chain.front();
            for (std::size_t k = 1; k < chain.size(); ++k) way += " > " + chain[k];
            problems.push_back(way);
        } else {
            follow(tree, allowed, chain, seen, problems);
        }
        chain.pop_back();
    }
}

std::vector<std::string> layer_problems(const Tree& tree) {
    std::vector<std::string> problems;
    for (const auto& [file, text] : tree) {
        for (const std::string& name : includes_of(tree, file).not_found)
            problems.push_back("not found: " + file + " > " + name);
        const std::optional<std::size_t> layer = layer_of(file);
        if (!layer) {
            problems.push_back("belongs to no layer: " + file);
            continue;
        }
        std::vector<std::string> chain{file};
        std::set<std::string> seen{file};
        follow(tree, *layer, chain, seen, problems);
    }
    return problems;
}

using Problems = std::vector<std::string>;

}  // namespace

TEST_CASE("layers: every file includes only its own layer and those before it") {
    Tree tree;
    for (const char* folder : {"include/", "src/"})
        for (const std::string& file : test_files::below(folder, {".hpp", ".cpp"}))
            tree[file] = test_files::file_text(test_files::root + file);
    CHECK(tree.size() > 100);
    for (const std::string& problem : layer_problems(tree)) FAIL_CHECK(problem);
    for (const Layer& layer : layers())
        for (const std::string_view path : layer.paths) {
            CAPTURE(path);
            const auto file = tree.lower_bound(std::string(path));
            CHECK((file != tree.end() && file->first.rfind(path, 0) == 0));
        }
}

TEST_CASE("layers: one file includes the reader of command lines, whose header compiles slowly") {
    std::vector<std::string> files;
    for (const char* folder : {"include/", "src/", "tests/"})
        for (const std::string& file : test_files::below(folder, {".hpp", ".cpp"})) {
            const std::string text = test_files::file_text(test_files::root + file);
            if (text.find("\n#include <CLI/") != std::string::npos) files.push_back(file);
        }
    CHECK(files == std::vector<std::string>{"src/cli/options.cpp"});
}

TEST_CASE("layers: tests make their temporary folders in one place, none with a fixed name") {
    const std::string shared = "\"/tmp";
    std::vector<std::string> files;
    for (const std::string& file : test_files::below("tests/", {".hpp", ".cpp", ".py"})) {
        const std::string text = test_files::file_text(test_files::root + file);
        const bool own = text.find("temp_directory_path") == std::string::npos &&
                         text.find("gettempdir") == std::string::npos &&
                         text.find(shared) == std::string::npos;
        if (!own) files.push_back(file);
    }
    // This test itself, and a fuzzer that makes its own by mkdtemp, in memory.
    CHECK(files == std::vector<std::string>{"tests/fuzz/book_file_fuzzer.cpp",
                                            "tests/layers_test.cpp", "tests/own_folder.hpp"});
}

TEST_CASE("layers: the check finds what it is for") {
    Tree tree = {{"include/caseload/error.hpp", "#include <string>\n"},
                 {"include/caseload/model.hpp", "#include \"caseload/error.hpp\"\n"},
                 {"include/caseload/heat.hpp", "#include \"caseload/model.hpp\"\n"},
                 {"src/heat/inner.hpp", "#pragma once\n"},
                 {"src/heat/steady.cpp",
                  "#include \"caseload/heat.hpp\"\n"
                  "#include \"inner.hpp\"\n"},
                 {"src/loads/train.cpp", "#include \"caseload/model.hpp\"\n"}};
    CHECK(layer_problems(tree) == Problems{});

    SUBCASE("a layer downstream") {
        tree["src/loads/train.cpp"] += "#include \"caseload/heat.hpp\"\n";
        CHECK(layer_problems(tree) == Problems{"layer loads reaches layer heat: src/loads/train.cpp"
                                               " > include/caseload/heat.hpp"});
    }
    SUBCASE("through a file that belongs to no layer itself") {
        tree["src/loads/train.cpp"] += "  #  include <extra.hpp>\n";
        tree["src/extra.hpp"] = "#include \"heat/inner.hpp\"\n";
        CHECK(layer_problems(tree) ==
              Problems{"belongs to no layer: src/extra.hpp",
                       "layer loads reaches layer heat: src/loads/train.cpp > src/extra.hpp"
                       " > src/heat/inner.hpp"});
    }
    SUBCASE("both files of the way between are named") {
        tree["include/caseload/error.hpp"] += "#include \"caseload/heat.hpp\"\n";
        CHECK(layer_problems(tree) ==
              Problems{"layer base reaches layer heat: include/caseload/error.hpp"
                       " > include/caseload/heat.hpp",
                       "layer model reaches layer heat: include/caseload/model.hpp"
                       " > include/caseload/error.hpp > include/caseload/heat.hpp",
                       "layer loads reaches layer heat: src/loads/train.cpp"
                       " > include/caseload/model.hpp > include/caseload/error.hpp"
                       " > include/caseload/heat.hpp"});
    }
    SUBCASE("a circle ends") {
        tree["src/heat/inner.hpp"] = "#include \"heat/inner.hpp\"\n";
        CHECK(layer_problems(tree) == Problems{});
    }
    SUBCASE("the chain may not use the evidence, the screen may") {
        tree["include/caseload/evidence.hpp"] = "#include \"caseload/heat.hpp\"\n";
        tree["src/show/text.cpp"] = "#include \"caseload/evidence.hpp\"\n";
        CHECK(layer_problems(tree) == Problems{});
        tree["src/heat/steady.cpp"] = "#include \"caseload/evidence.hpp\"\n";
        CHECK(layer_problems(tree) ==
              Problems{"layer heat reaches layer evidence: src/heat/steady.cpp"
                       " > include/caseload/evidence.hpp"});
    }
    SUBCASE("an include of nothing") {
        tree["src/loads/train.cpp"] += "#include \"caseload/laods.hpp\"\n#include NAME\n";
        CHECK(layer_problems(tree) ==
              Problems{"not found: src/loads/train.cpp > caseload/laods.hpp",
                       "not found: src/loads/train.cpp > #include NAME"});
    }
}

}  // namespace layers_tests
