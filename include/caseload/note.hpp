// SPDX-License-Identifier: MIT
// A reservation that travels with the result: calculated, but outside the range a source was
// tested in, with an estimated rating, or with a judgement worth saying aloud.
#pragma once

#include "caseload/quantity.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace caseload {

struct Note {
    std::string id;     ///< stable, for example "bearing.kappa.above_4"
    std::string about;  ///< which quantity or part, for example "bearing.input_front"
    std::string text;   ///< quantity, range and by how far it is left, in words

    bool operator==(const Note&) const = default;
};
CASELOAD_MEMBERS(Note, "note", id, about, text);

using Notes = std::vector<Note>;

/// Adds a note unless one with the same id and part is there: bins and legs repeat themselves.
inline void add_note(Notes& notes, Note note) {
    const bool known = std::any_of(notes.begin(), notes.end(), [&](const Note& other) {
        return other.id == note.id && other.about == note.about;
    });
    if (!known) notes.push_back(std::move(note));
}

}  // namespace caseload
