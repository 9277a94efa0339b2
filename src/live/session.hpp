// SPDX-License-Identifier: MIT
// A setup that stays open while its text changes: questions of the live page, and the answers as
// JSON, their pictures and tables as markup by the code of the static page. Knows no browser and no
// file.
#pragma once

#include "caseload/ask/remedy.hpp"
#include "caseload/ask/sheets.hpp"
#include "caseload/seats.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::live {

class Session {
public:
    /// {"ok":true,..}, or {"ok":false,"problems":[..],"report":".."} for what the user can mend.
    /// Questions, with their arguments:
    ///     new                 text       of a setup to begin with
    ///     keep NAME TEXT                 a file beside the setup, for `base` and `event.from`
    ///     open NAME TEXT      the ten boxes and every entry; what follows is about this setup
    ///     change KEY TYPED    text       with one entry changed
    ///     forget KEY          text       without that entry
    ///     likely              html and words: likely values
    ///     band DRAWS          verdict, title and head of the page
    ///     worth               of each assumption: oil low, high, life low, high
    ///     page                body of the page, with the worth if it was asked before
    ///     sets SPEED, cooler BOX, compare KEY TYPED, why ADDRESS    screen, as the program prints
    ///     json DRAWS, line DRAWS         as `assess --json` and `--each`
    ///     chain                          answer: the assessment of `assess --json` alone
    std::string answer(std::string_view question, const std::string& first,
                       const std::string& second);

private:
    std::string open(const std::string& name, const std::string& text);
    std::string likely();
    std::string band(const std::string& draws);
    std::string worth();
    std::string page();
    std::string why(const std::string& address);
    std::string compare(const std::string& key, const std::string& typed);
    void forget_range();
    const ReadSetup& read() const;
    const Assessment& assessment();
    const Band& sure();
    const Remedy& remedy();

    std::map<std::string, std::string> files_;
    std::string text_;
    std::optional<Document> document_;
    std::optional<ReadSetup> read_;
    std::optional<Assessment> likely_;
    std::optional<Band> band_;
    std::optional<Remedy> remedy_;
    std::vector<Moment> moments_;
    std::vector<SeatSweep> seats_;
    std::vector<Worth> worth_;
    std::size_t draws_ = 1023;
};

}  // namespace caseload::live
