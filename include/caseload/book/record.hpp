// SPDX-License-Identifier: MIT
// The service book: what was done to which case, when, and what was found. Records are only ever
// added; a correction is a further record. No file, no clock here.
#pragma once

#include <deque>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace caseload::book {

struct Record {
    std::string id;       ///< unique over all books: "book-number"
    std::string date;     ///< "2026-11-20"
    std::string kind;     ///< case setup event oil look opening finding part reading correct
    std::string serial;   ///< of the case; "" for a setup
    std::string setup;    ///< hash of the setup that held for it; "" before the first event
    std::string version;  ///< of the program that wrote it
    std::vector<std::pair<std::string, std::string>> fields;

    bool operator==(const Record&) const = default;
};

using Records = std::vector<Record>;  ///< in the order they were written

/// Limits of a book, beyond any service record. Text form and CSV give a book back to the byte, so
/// both readers share them.
namespace most {
constexpr std::size_t word_bytes = 1000;         ///< id, case, setup, version, key
constexpr std::size_t value_bytes = 1U << 20U;   ///< as a setup's text
constexpr std::size_t line_bytes = 3U << 20U;    ///< a value with every byte escaped
constexpr std::size_t file_bytes = 256U << 20U;  ///< of the text form or CSV
constexpr std::size_t fields = 1000;             ///< of a record
constexpr std::size_t records = 100'000;         ///< of a book
constexpr double times = 1000;                   ///< equal events in one record
constexpr double damage = 1e100;                 ///< sums over a book stay finite
}  // namespace most

/// Value of a field, or "".
std::string value(const Record& record, std::string_view key);
void set(Record& record, std::string_view key, std::string text);
/// Number in a field; 0 if absent. Throws Error{input} naming record and field if it is none.
double number(const Record& record, std::string_view key);

/// Throws Error{input} unless it is a day of the calendar written 2026-11-20.
void require_date(const std::string& date);
/// Throws Error{input} if a field the kind needs is missing or not understood, or if anything in it
/// would not come back from the text form.
void require_complete(const Record& record);

/// Throws Error{input} when a record names a case, a record or a setup that is not among these.
void require_references(std::span<const Record> records);
/// Throws Error{input} when a correction is of a record that is never corrected, or leaves one that
/// is not complete or names a case or setup that is not among these.
void require_corrections(std::span<const Record> records);
struct Position {
    std::string serial;
    std::string name;
    bool or_case = false;
};
/// Throws Error{input} with the nearest, unless the position is one of the case: its form, and the
/// names in its events once there are any. `case` is the case as a whole.
void require_position(std::span<const Record> records, const Position& position);

/// What comes in from a file, with the line each record begins at.
struct Incoming {
    Records records;
    std::vector<int> lines;
    std::string file;
};
/// Throws Error{input} when a part or finding is at a position its case does not have.
void require_positions(std::span<const Record> held, const Incoming& fresh);
/// Throws Error{input} when a date of a case lies before one further up or before its last one
/// in the book.
void require_order(std::span<const Record> held, const Incoming& fresh);
/// Cases that both have begun.
std::vector<std::string> begun_twice(std::span<const Record> held, const Incoming& fresh);

/// Throws Error{input} with the nearest, unless a correction of this record may set the key.
void require_correctable(const Record& record, const std::string& key);

/// Identifies a text: FNV-1a, 64 bits (Fowler, Noll, Vo; from memory). No seal against forging.
std::string hash(std::string_view text);

/// By date, records of one day in the order they were written.
Records by_date(std::span<const Record> records);

/// As corrected: later corrections win, struck records are gone, `correct` records too. By date,
/// records of one day in the order they were written.
Records corrected(std::span<const Record> records);

/// The same without a copy of what no correction changes.
struct Corrected {
    std::vector<const Record*> records;  ///< into what was given and `changed`
    std::deque<Record> changed;
};
/// What was given has to outlive it.
Corrected corrected_view(std::span<const Record> records);

/// Throws Error{input} naming the nearest, unless the case is known.
void require_known_case(std::span<const Record> records, const std::string& serial);

/// How bad a finding is.
enum class Weight { good, watch, open_now };
/// Words for what was found: modes of bearing damage (ISO 15243) and symptoms of the running case.
struct Word {
    std::string_view name;
    std::string_view words;
    Weight weight;
    bool fatigue;  ///< counts as a failure of the calculated kind
    bool symptom;  ///< of the case, seen without opening it
};
std::span<const Word> finding_words();
/// Throws Error{input} with the nearest word.
const Word& finding_word(const std::string& name);

/// What the text of one record, as to_text writes it, says before its values.
struct Heading {
    std::string_view kind;  ///< "": not such a text
    std::string serial;
    std::string_view hash;  ///< of a setup
};
Heading heading_of(std::string_view text);

/// Plain dated text; every byte of every complete record comes back. Throws Error{input} for more
/// than the reader takes.
std::string to_text(std::span<const Record> records);
/// Throws Error{input} with the line.
Incoming from_text(std::string_view text, const std::string& name);
/// One row a field: id,date,kind,case,setup,version,key,value (RFC 4180). As above.
std::string to_csv(std::span<const Record> records);
Incoming from_csv(std::string_view text, const std::string& name);

}  // namespace caseload::book
