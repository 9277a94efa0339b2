// SPDX-License-Identifier: MIT
#include "duty/separators.hpp"

#include <cstring>

#if defined(__SSE2__)
#include <emmintrin.h>
#endif

namespace caseload::duty {
namespace {

constexpr std::size_t stride = 64;

/// A bit for each of 64 bytes that equals c.
#if defined(__SSE2__)
std::uint64_t equal_bits(const __m128i* text, __m128i c) {
    std::uint64_t bits = 0;
    for (unsigned k = 0; k < 4; ++k) {
        const int mask = _mm_movemask_epi8(_mm_cmpeq_epi8(_mm_loadu_si128(text + k), c));
        bits |= static_cast<std::uint64_t>(static_cast<std::uint32_t>(mask)) << (16 * k);
    }
    return bits;
}
#else
std::uint64_t equal_bits(const char* text, char c) {
    std::uint64_t bits = 0;
    for (std::size_t k = 0; k < stride; ++k) bits |= static_cast<std::uint64_t>(text[k] == c) << k;
    return bits;
}
#endif

}  // namespace

void Separators::reserve(std::size_t size) {
    if (size <= room_) return;
    room_ = size;
    // Not value-initialised: only what was found is read.
    fields_.reset(new std::uint32_t[room_ + stride + 1]);
    fields_[0] = 0;
    lines_at_.reset(new std::uint32_t[room_ + stride]);
}

void Separators::find(const char* text, std::size_t size) {
    reserve(size);
    std::uint32_t* const first = fields_.get() + 1;
    std::uint32_t* to = first;
    std::uint32_t* line = lines_at_.get();
#if defined(__SSE2__)
    const __m128i delimiter = _mm_set1_epi8(delimiter_);
    const __m128i line_end = _mm_set1_epi8('\n');
#endif
    for (std::size_t base = 0; base < size; base += stride) {
#if defined(__SSE2__)
        const auto* const block = reinterpret_cast<const __m128i*>(text + base);
        std::uint64_t ends = equal_bits(block, line_end);
        std::uint64_t all = equal_bits(block, delimiter) | ends;
#else
        std::uint64_t ends = equal_bits(text + base, '\n');
        std::uint64_t all = equal_bits(text + base, delimiter_) | ends;
#endif
        if (size - base < stride) {
            const std::uint64_t inside = (std::uint64_t{1} << (size - base)) - 1;
            ends &= inside;
            all &= inside;
        }
        const auto behind = static_cast<std::uint32_t>(base + 1);
        for (; ends != 0; ends &= ends - 1)
            *line++ = behind + static_cast<std::uint32_t>(__builtin_ctzll(ends));
        for (; all != 0; all &= all - 1)
            *to++ = behind + static_cast<std::uint32_t>(__builtin_ctzll(all));
    }
    count_ = static_cast<std::size_t>(to - first);
    lines_ = static_cast<std::size_t>(line - lines_at_.get());
}

}  // namespace caseload::duty
