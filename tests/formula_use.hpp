// SPDX-License-Identifier: MIT
// Which formula functions an answer uses, read from the source. A definition begins in the first
// column of a line, as clang-format leaves them; names are followed, overloads and the values of
// arguments are not.
#pragma once

#include "files.hpp"

#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace test_files {

using Names = std::set<std::string>;

/// space::name of every function the header declares: one starts with [[nodiscard]].
inline Names declared(const std::string& header) {
    static const std::regex space("^namespace caseload(::([a-z0-9_]+))? \\{.*");
    static const std::regex function("^\\[\\[nodiscard\\]\\][^(]* ([A-Za-z0-9_]+)\\(.*");
    Names found;
    std::string in;
    for (const std::string& line : lines(header)) {
        std::smatch part;
        if (std::regex_match(line, part, space)) in = part.str(2);
        if (std::regex_match(line, part, function)) found.insert(in + "::" + part.str(1));
    }
    return found;
}

struct Definition {
    std::string space;  ///< below caseload, "" there itself
    std::string name;
    std::string text;
};

/// Functions, types and constants a source without comments defines in the first column.
inline std::vector<Definition> definitions(const std::string& source) {
    static const std::regex space("^namespace (caseload::)?([a-z0-9_]+) \\{.*");
    static const std::regex function("([A-Za-z_][A-Za-z0-9_]*)\\(");
    static const std::regex other("([A-Za-z_][A-Za-z0-9_]*)(\\[\\])? *(=|$)");
    std::vector<Definition> found;
    std::string in;
    Definition now;
    for (const std::string& line : lines(source)) {
        std::smatch part;
        if (std::regex_match(line, part, space)) in = part.str(2) == "caseload" ? "" : part.str(2);
        const bool first = now.text.empty();
        if (first && (line.empty() || std::string(" }#").find(line[0]) != std::string::npos ||
                      line.rfind("namespace", 0) == 0))
            continue;
        now.text += line + "\n";
        const auto count = [&](char c) { return std::count(now.text.begin(), now.text.end(), c); };
        const bool ends = !line.empty() && (line.back() == ';' || line.back() == '}');
        if (!ends || count('{') != count('}')) continue;
        const std::string head = now.text.substr(0, now.text.find('{'));
        if (std::regex_search(head, part, function) || std::regex_search(head, part, other))
            found.push_back({in, part.str(1), now.text});
        now = {};
    }
    return found;
}

/// Names of that form in a text that are neither a member's nor qualified.
inline Names plain_names(const std::string& text, const std::regex& form) {
    Names found;
    for (std::sregex_iterator at(text.begin(), text.end(), form), end; at != end; ++at)
        if (!(*at)[1].matched) found.insert(at->str(2));
    return found;
}
inline Names words(const std::string& text) {
    static const std::regex form("(\\.|::|->)?\\b([A-Za-z_][A-Za-z0-9_]*)");
    return plain_names(text, form);
}
/// Those that are called.
inline Names called(const std::string& text) {
    static const std::regex form("(\\.|::|->)?\\b([A-Za-z_][A-Za-z0-9_]*)\\(");
    return plain_names(text, form);
}

/// Those of the functions the text names with their namespace.
inline Names qualified(const std::string& text, const Names& functions) {
    static const std::regex form("\\b([a-z0-9_]+::[A-Za-z0-9_]+)");
    static const std::regex opened("using namespace ([a-z0-9_]+);");
    Names found;
    for (std::sregex_iterator at(text.begin(), text.end(), form), end; at != end; ++at)
        if (functions.count(at->str(1)) == 1) found.insert(at->str(1));
    for (std::sregex_iterator at(text.begin(), text.end(), opened), end; at != end; ++at)
        for (const std::string& word : words(text))
            if (functions.count(at->str(1) + "::" + word) == 1)
                found.insert(at->str(1) + "::" + word);
    return found;
}

/// A project's sources, without their comments: path to text.
using Sources = std::map<std::string, std::string>;

inline std::string without_comments(const std::string& source) {
    std::string text;
    for (const std::string& line : lines(source)) text += line.substr(0, line.find("//")) + "\n";
    return text;
}

inline Sources project_sources() {
    Sources all;
    for (const char* folder : {"include/caseload", "src"})
        for (const std::string& file : below(folder, {".cpp", ".hpp"}))
            all[file] = without_comments(file_text(root + file));
    return all;
}

inline bool in_folder(const std::string& file, const std::string& folder) {
    return file.rfind(folder, 0) == 0;
}

inline Names formula_functions(const Sources& sources) {
    Names all;
    for (const auto& [file, text] : sources)
        if (in_folder(file, "include/caseload/formulas/"))
            for (const std::string& name : declared(text)) all.insert(name);
    return all;
}

/// What a definition leads to: formula functions, and definitions of its own file.
using Leads = std::map<std::string, Names>;

inline void follow_names(const Leads& leads, const std::string& from, Names& reached) {
    if (!reached.insert(from).second) return;
    const auto found = leads.find(from);
    if (found == leads.end()) return;
    for (const std::string& next : found->second) follow_names(leads, next, reached);
}

inline Leads formula_leads(const Sources& sources, const Names& functions) {
    static const std::regex taken("\\nusing ([a-z0-9_]+::[A-Za-z0-9_]+);");
    Leads leads;
    for (const auto& [file, text] : sources) {
        if (file.find("/formulas/") == std::string::npos) continue;
        const std::vector<Definition> own = definitions(text);
        std::map<std::string, std::string> known;  // word to what it means here
        for (const Definition& one : own) known[one.name] = file + ":" + one.name;
        for (std::sregex_iterator at(text.begin(), text.end(), taken), end; at != end; ++at)
            if (functions.count(at->str(1)) == 1)
                known[at->str(1).substr(at->str(1).find("::") + 2)] = at->str(1);
        for (const Definition& one : own) {
            const std::string full = one.space + "::" + one.name;
            Names& to = leads[functions.count(full) == 1 ? full : file + ":" + one.name];
            const Names named = qualified(one.text, functions);
            to.insert(named.begin(), named.end());
            for (const std::string& word : called(one.text))
                if (functions.count(one.space + "::" + word) == 1)
                    to.insert(one.space + "::" + word);
            for (const std::string& word : words(one.text))
                if (functions.count(one.space + "::" + word) == 0 && known.count(word) == 1)
                    to.insert(known[word]);
        }
    }
    return leads;
}

/// Formula functions that an answer uses: named by a source that is neither formula nor evidence
/// nor `why`, which only explains, or reached from one of those.
inline Names used_by_answers(const Sources& sources) {
    const Names functions = formula_functions(sources);
    const Leads leads = formula_leads(sources, functions);
    Names reached;
    for (const auto& [file, text] : sources) {
        if (file.find("/formulas/") != std::string::npos ||
            file.find("/evidence") != std::string::npos || in_folder(file, "src/why/"))
            continue;
        for (const std::string& name : qualified(text, functions))
            follow_names(leads, name, reached);
    }
    Names used;
    for (const std::string& name : functions)
        if (reached.count(name) == 1) used.insert(name);
    return used;
}

}  // namespace test_files
