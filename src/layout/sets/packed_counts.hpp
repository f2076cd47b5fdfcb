#pragma once

#include "layout/tree/block.hpp"

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace barrow::layout {

/// Counts of the kinds as fields of machine words, none across two words. Each field has a spare
/// bit above it, so that whole words are compared and subtracted at once.
struct PackedCounts {
    static constexpr std::size_t most_words = 4;
    std::array<std::uint64_t, most_words> words{};

    bool operator==(const PackedCounts&) const = default;
    bool none() const { return (words[0] | words[1] | words[2] | words[3]) == 0; }
    PackedCounts operator-(const PackedCounts& other) const {
        PackedCounts rest;
        for (std::size_t w = 0; w < most_words; ++w) rest.words[w] = words[w] - other.words[w];
        return rest;
    }
    PackedCounts operator+(const PackedCounts& other) const {
        PackedCounts sum;
        for (std::size_t w = 0; w < most_words; ++w) sum.words[w] = words[w] + other.words[w];
        return sum;
    }
    std::uint64_t hash(std::uint64_t seed) const {
        for (const std::uint64_t word : words)
            seed = (seed ^ word) * 0x9E3779B97F4A7C15U ^ (seed >> 29);
        return seed ^ (seed >> 32);
    }
};

/// Which bits of a PackedCounts belong to which kind of item.
class CountFields {
public:
    explicit CountFields(const Instance& instance) {
        Field next;
        for (std::size_t kind = 0; kind < instance.items.size() && fits_; ++kind) {
            const auto bits = static_cast<unsigned>(
                std::bit_width(static_cast<std::uint64_t>(instance.items[kind].demand)));
            if (next.shift + bits + 1 > word_bits) next = {next.word + 1, 0};
            fits_ = next.word < PackedCounts::most_words;
            if (!fits_) return;
            fields_.push_back(next);
            for (unsigned bit = 0; bit < bits; ++bit) kind_at_[next.word][next.shift + bit] = kind;
            next.shift += bits;
            spare_.words[next.word] |= std::uint64_t{1} << next.shift;
            ++next.shift;
        }
    }

    /// False when the counts need more words than there are; then nothing else may be asked.
    bool possible() const { return fits_; }

    PackedCounts packed(const std::vector<std::int64_t>& counts) const {
        PackedCounts answer;
        for (std::size_t kind = 0; kind < counts.size(); ++kind)
            answer.words[fields_[kind].word] |= static_cast<std::uint64_t>(counts[kind])
                                                << fields_[kind].shift;
        return answer;
    }

    /// Whether no count is greater than what is left of its kind: it would borrow the spare bit
    /// above its field.
    bool within(const PackedCounts& counts, const PackedCounts& left) const {
        for (std::size_t w = 0; w < PackedCounts::most_words; ++w)
            if ((((left.words[w] | spare_.words[w]) - counts.words[w]) & spare_.words[w])
                != spare_.words[w])
                return false;
        return true;
    }

    /// Requires that something is left.
    std::size_t first_kind(const PackedCounts& left) const {
        std::size_t word = 0;
        while (left.words[word] == 0) ++word;
        return kind_at_[word][static_cast<std::size_t>(std::countr_zero(left.words[word]))];
    }

private:
    static constexpr unsigned word_bits = 64;
    struct Field {
        std::size_t word = 0;
        unsigned shift = 0;
    };
    std::vector<Field> fields_; ///< of each kind
    PackedCounts spare_;        ///< the spare bits
    std::array<std::array<std::size_t, word_bits>, PackedCounts::most_words> kind_at_{};
    bool fits_ = true;
};

} // namespace barrow::layout
