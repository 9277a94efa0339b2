// SPDX-License-Identifier: MIT
// Values of the command line that say by how much to change what the setup has: "+600 kg".
#pragma once

#include "caseload/input.hpp"

#include <string>
#include <string_view>

namespace caseload {

/// A key with its value in the setup and the one asked for, as people write them: "2900" and
/// "3500 kg", the unit of both behind the second.
struct ChangedKey {
    std::string key;
    std::string before;  ///< "not entered" where the setup has no value
    std::string after;
};

/// The value a text asks for. One of a quantity or number that begins with + or - changes the
/// present value by it and becomes the new one, in the unit of the change; any other is returned as
/// it is. Of a temperature "-5 degC" is a value and "+5 K" a change. Throws Error{input}, naming
/// the option, where there is no present value to change, or where "+5 degC" could be either.
std::string new_value(const ReadSetup& read, std::string_view option, const std::string& key,
                      const std::string& text);

/// What a change puts in place of what; `value` without the quotes of a setup file.
ChangedKey changed_key(const ReadSetup& read, const std::string& key, const std::string& value);

}  // namespace caseload
