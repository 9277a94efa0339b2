// SPDX-License-Identifier: MIT
// The list of coming events as text.
#include "caseload/ask/season.hpp"

#include "input/fields.hpp"
#include "input/letters.hpp"
#include "input/scan.hpp"
#include "input/value.hpp"

#include <fmt/format.h>

#include <map>
#include <utility>

namespace caseload {
namespace {

using input::Leaf;
using input::Value;

class ListReader {
public:
    ListReader(std::string_view text, const std::string& name)
        : source_(text, name), leaves_(input::parse_leaves(text, name)) {}

    std::vector<ComingEvent> read() {
        std::map<std::string, ComingEvent> known;
        for (const auto& [key, leaf] : leaves_)
            if (key != "run" && key != "title" && key != "caseload") add(known, key, leaf);
        const auto run = leaves_.find("run");
        if (run == leaves_.end())
            fail({source_.name(), 0, 0, 0, {}}, "the list has no run",
                 "name the events in order: run = [\"hills\", \"canyon\"]");
        if (run->second.value.kind != Value::Kind::list || run->second.value.items.empty())
            fail(run->second.value.where, "run must be a list of event names",
                 "for example run = [\"hills\", \"canyon\"]");
        if (run->second.value.items.size() > most_season_events)
            fail(run->second.value.where,
                 fmt::format("run has {} events; at most {} are planned ahead",
                             run->second.value.items.size(), most_season_events),
                 "other things open the case first");
        std::vector<ComingEvent> coming;
        for (const Value& item : run->second.value.items) coming.push_back(event_of(known, item));
        return coming;
    }

private:
    [[noreturn]] void fail(Where where, std::string text, std::string hint) const {
        throw Error(Error::Kind::input,
                    {Problem{with_line(std::move(where)), std::move(text), std::move(hint)}});
    }

    [[nodiscard]] Where with_line(Where where) const {
        if (where.source_line.empty()) where.source_line = std::string(source_.line(where.line));
        return where;
    }

    void add(std::map<std::string, ComingEvent>& known, const std::string& key,
             const Leaf& leaf) const {
        constexpr std::string_view heading = "event.";
        if (!key.starts_with(heading))
            fail(leaf.key_where, fmt::format("{} is not a key of a list of events", key),
                 "accepted: run, title and a heading for each event, for example [event.hills]");
        const std::size_t dot = key.find('.', heading.size());
        const std::string name = key.substr(heading.size(), dot - heading.size());
        ComingEvent& event = known[name];
        event.name = name;
        if (dot == std::string::npos) {
            if (leaf.value.kind != Value::Kind::table)
                fail(leaf.key_where, fmt::format("{} must be a heading", key),
                     fmt::format("[{}], and below it what this event changes", key));
            return;
        }
        const std::string inner = key.substr(dot + 1);
        if (inner == "date") {
            if (leaf.value.kind != Value::Kind::text)
                fail(leaf.value.where, fmt::format("{} must be text", key),
                     "for example date = \"14 March\"");
            event.date = leaf.value.text;
            return;
        }
        const std::string own = std::string(heading) + inner;
        event.changes.push_back(
            {input::find_field(own) != nullptr ? own : inner, input::toml_text(leaf.value)});
        event.places.push_back(with_line(leaf.key_where));
    }

    [[nodiscard]] ComingEvent event_of(const std::map<std::string, ComingEvent>& known,
                                       const Value& item) const {
        if (item.kind != Value::Kind::text)
            fail(item.where, "a name in run must be text", "for example run = [\"hills\"]");
        const auto found = known.find(item.text);
        if (found == known.end()) {
            std::string names;
            for (const auto& [name, event] : known) names += (names.empty() ? "" : ", ") + name;
            fail(item.where, fmt::format("no event is called \"{}\"", item.text),
                 names.empty() ? fmt::format("add a heading [event.{}]", item.text)
                               : "the list has " + names);
        }
        ComingEvent event = found->second;
        event.where = with_line(item.where);
        return event;
    }

    input::Source source_;
    input::Leaves leaves_;
};

}  // namespace

std::vector<ComingEvent> read_events(std::string_view text, const std::string& name) {
    return ListReader(input::without_mark(text), name).read();
}

}  // namespace caseload
