// SPDX-License-Identifier: MIT
// toml++ compiled once.
#define TOML_IMPLEMENTATION
#include "third_party/toml.hpp"
