// SPDX-License-Identifier: MIT
// The engine on a machine that runs out of memory: every allocation of one answer fails once, or
// every STEP-th. Each time the answer ends with std::bad_alloc or is whole and right, and nothing
// is left allocated.
//   caseload_failing_allocations SETUP STEP likely|band
#include "caseload/ask/band.hpp"
#include "caseload/assess.hpp"
#include "caseload/error.hpp"
#include "caseload/input.hpp"
#include "caseload/show/json.hpp"

#include <fmt/format.h>

#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <new>
#include <optional>
#include <string>

namespace {

long allocations = 0;
long fails_at = -1;  // never
long held = 0;

void* allocate(std::size_t size, std::size_t alignment) {
    if (++allocations == fails_at) return nullptr;
    void* const memory =
        alignment > alignof(std::max_align_t)
            ? std::aligned_alloc(alignment, (size + alignment - 1) / alignment * alignment)
            : std::malloc(size == 0 ? 1 : size);
    if (memory != nullptr) ++held;
    return memory;
}

void release(void* memory) {
    if (memory == nullptr) return;
    --held;
    std::free(memory);
}

}  // namespace

void* operator new(std::size_t size) {
    if (void* const memory = allocate(size, 1)) return memory;
    throw std::bad_alloc();
}
void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
    return allocate(size, 1);
}
void* operator new(std::size_t size, std::align_val_t alignment) {
    if (void* const memory = allocate(size, static_cast<std::size_t>(alignment))) return memory;
    throw std::bad_alloc();
}
void operator delete(void* memory) noexcept {
    release(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    release(memory);
}
void operator delete(void* memory, std::align_val_t) noexcept {
    release(memory);
}
void operator delete(void* memory, std::size_t, std::align_val_t) noexcept {
    release(memory);
}

using namespace caseload;

namespace {

// The fewest draws the program takes.
constexpr int draws = 63;

bool with_band = false;

std::string text_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

std::string answer(const Document& document) {
    const ReadSetup read = document.complete();
    const Assessment likely = assess(read.setup);
    const Band sure = with_band ? band(read.setup, likely, {.draws = draws}) : Band{};
    return assessment_json({read, likely, sure, {}});
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 4) {
        std::fputs("usage: caseload_failing_allocations SETUP STEP likely|band\n", stderr);
        return 2;
    }
    with_band = std::string(argv[3]) == "band";
    const std::filesystem::path path(argv[1]);
    const Document document(
        text_of(path), path.filename().string(), [&path](const std::string& base) {
            return std::optional<std::string>(text_of(path.parent_path() / base));
        });
    const long step = std::atol(argv[2]);
    const std::string whole = answer(document);  // tables kept for the whole run are made here
    const long before = allocations;
    if (answer(document) != whole) {
        std::puts("two answers differ");
        return 1;
    }
    const long all = allocations - before;
    long refused = 0;
    long wrong = 0;
    for (long n = 1; n <= all; n += step) {
        const long held_before = held;
        allocations = 0;
        fails_at = n;
        const char* what = nullptr;
        {
            std::optional<std::string> got;
            try {
                got = answer(document);
            } catch (const std::bad_alloc&) {
                ++refused;
            } catch (const std::exception&) {
                what = "another error";
            }
            fails_at = -1;
            if (got && *got != whole) what = "another answer";
        }
        if (what == nullptr && held != held_before) what = "memory is lost";
        if (what == nullptr) continue;
        ++wrong;
        if (wrong < 10) std::printf("allocation %ld of %ld: %s\n", n, all, what);
    }
    std::printf("%ld allocations, %ld of them failed in turn: %ld ended by it, %ld wrong\n", all,
                (all + step - 1) / step, refused, wrong);
    return wrong == 0 && refused > 0 ? 0 : 1;
}
