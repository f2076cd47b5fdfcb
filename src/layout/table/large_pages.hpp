#pragma once

#include <cstddef>
#include <cstdlib>
#include <new>

#if defined(__linux__)
#include <sys/mman.h>
#endif

namespace barrow::layout {

/// Allocator for tables of many megabytes that are filled at once. The system hands out memory page
/// by page at the first touch; pages of 2 MB instead of 4 KB save most of that time (measured: a
/// fifth of the total for the largest tables). Plain memory outside Linux.
template <typename T>
struct LargePages {
    using value_type = T; // NOLINT(readability-identifier-naming): the standard's name

    LargePages() = default;
    template <typename Other>
    LargePages(const LargePages<Other>& /*other*/) {} // NOLINT(google-explicit-constructor)

    T* allocate(std::size_t count) {
        if (!many(count)) return static_cast<T*>(::operator new(count * sizeof(T)));
        const std::size_t bytes = count * sizeof(T);
        void* memory = std::aligned_alloc(page, (bytes + page - 1) / page * page);
        if (memory == nullptr) throw std::bad_alloc();
#if defined(__linux__)
        madvise(memory, bytes, MADV_HUGEPAGE); // only a hint: harmless when refused
#endif
        return static_cast<T*>(memory);
    }
    void deallocate(T* memory, std::size_t count) {
        if (many(count))
            std::free(memory);
        else
            ::operator delete(memory);
    }

    friend bool operator==(const LargePages&, const LargePages&) {
        return true;
    }

private:
    static constexpr std::size_t page = std::size_t{1} << 21;
    static bool many(std::size_t count) {
        return count >= 4 * page / sizeof(T);
    }
};

} // namespace barrow::layout
