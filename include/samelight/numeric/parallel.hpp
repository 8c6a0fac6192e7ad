#pragma once
// Work divided over threads so that nobody can tell over how many: in blocks that don't depend on the number of threads, each with a place of its
// own for what it finds, put together in the order of the blocks.
#include <algorithm>
#include <cstddef>
#include <type_traits>
#include <vector>

#include "samelight/numeric/form.hpp"

// std::thread is missing in MinGW's model of Windows' own threads, and its other one takes a library; without pthreads emscripten has it, but can't start
// one. There everything is done by the caller, in plain loops, which cost no byte of program.
#if defined(__MINGW32__) || (defined(__EMSCRIPTEN__) && !defined(__EMSCRIPTEN_PTHREADS__)) || \
    defined(_LIBCPP_HAS_NO_THREADS) || (defined(__GLIBCXX__) && !defined(_GLIBCXX_HAS_GTHREADS))
#define SAMELIGHT_HAS_THREADS 0
#else
#define SAMELIGHT_HAS_THREADS 1
#endif

namespace samelight::inline SAMELIGHT_FORM {

/// How many threads a member or option `threads` means: itself, or of 0 as many as the machine runs at once (1 where it doesn't say). Between 1
/// and 256. Always 1 where the library has no threads: on Windows by MinGW, whose threads would be a library of their own, and
/// under emscripten without pthreads. Own rule.
SAMELIGHT_API std::size_t threads_meant(std::size_t threads) noexcept;

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::parallel {

/// Does something with a block, of which it is told the number and by which of the workers, counted from 0, it is done. True where that
/// returned true, which says that no block behind this one is wanted. Throws what it throws. Own scheme.
template <class Work>
bool do_block(const Work& work, std::size_t block, std::size_t worker) {
    if constexpr (std::is_same_v<decltype(work(block, worker)), bool>) {
        return work(block, worker);
    } else {
        work(block, worker);
        return false;
    }
}

#if SAMELIGHT_HAS_THREADS
/// What is to be done with a block, see do_block(). Lends what it is made of, which is called by several threads at once.
class BlockWork {
  public:
    /// Nothing to do.
    BlockWork() = default;
    /// As do_block(work, ...) does it. Throws nothing.
    template <class Work>
    BlockWork(const Work& work)
        : work_(&work), call_([](const void* to_do, std::size_t block, std::size_t worker) {
              return do_block(*static_cast<const Work*>(to_do), block, worker);
          }) {}

    /// Whether there is nothing to do.
    [[nodiscard]] bool empty() const noexcept { return call_ == nullptr; }
    /// Does it; true: that was the last wanted. Throws what it throws.
    bool operator()(std::size_t block, std::size_t worker) const {
        return call_(work_, block, worker);
    }

  private:
    const void* work_ = nullptr;
    bool (*call_)(const void*, std::size_t, std::size_t) = nullptr;
};
#endif

/// How many workers `blocks` blocks get: as many as threads_meant(), but no more than blocks, and one at least. Own rule.
SAMELIGHT_API std::size_t workers_for(std::size_t blocks, std::size_t threads) noexcept;

#if SAMELIGHT_HAS_THREADS
/// Does `work` with every block, by as many workers as workers_for() says, of which the caller is the first; the others are threads that end
/// before this returns. `then` is done with every block, too: after its work, in the order of the blocks, one at a time, for what has to be
/// added up in that order.
///
/// Returns the first block, in their order, whose work said that it was the last wanted; their number where none did. Where blocks throw
/// before that one, the error of the first of them reaches the caller, whatever the number of threads. `then` is done with those
/// before it, and with the last wanted; of blocks behind it some may have been worked on, and nothing is to be taken of what they found.
/// Each worker takes the next block that nobody has. A thread that can't be started is done without. Memory: a stack for each worker but
/// the first, of which the library uses some kB, and what `work` takes. Own scheme.
SAMELIGHT_API std::size_t work_in_blocks(std::size_t blocks, std::size_t threads, BlockWork work,
                                         BlockWork then = {});
#else
/// The same by the caller alone. Throws what `work` and `then` throw. Own scheme.
template <class Work, class Then>
std::size_t work_in_blocks(std::size_t blocks, std::size_t, const Work& work, const Then& then) {
    for (std::size_t block = 0; block < blocks; ++block) {
        const bool last = do_block(work, block, 0);
        then(block, std::size_t{0});
        if (last) {
            return block;
        }
    }
    return blocks;
}
/// The same without `then`. Throws what `work` throws. Own scheme.
template <class Work>
std::size_t work_in_blocks(std::size_t blocks, std::size_t threads, const Work& work) {
    return work_in_blocks(blocks, threads, work, [](std::size_t, std::size_t) {});
}
#endif

/// Some items in blocks of one size, the last perhaps smaller. The size must not depend on the number of threads.
struct BlocksOf {
    std::size_t items;
    std::size_t size;

    /// How many blocks there are.
    [[nodiscard]] std::size_t count() const noexcept { return (items + size - 1) / size; }
    /// The first item of a block; that of the block behind the last is `items`.
    [[nodiscard]] std::size_t first(std::size_t block) const noexcept {
        return std::min(block * size, items);
    }
};

/// work(first, last, worker) for every block of items first to last - 1. Throws as work_in_blocks(). Own scheme.
template <class Work>
void for_blocks(const BlocksOf& blocks, std::size_t threads, const Work& work) {
    work_in_blocks(blocks.count(), threads, [&](std::size_t block, std::size_t worker) {
        work(blocks.first(block), blocks.first(block + 1), worker);
    });
}

/// As for_blocks(), each worker with something of its own to work in, made by `make()`: work(own, first, last). What is left in it of earlier
/// blocks must not change the answer. Throws as work_in_blocks(). Own scheme.
template <class Make, class Work>
void for_blocks_with(const BlocksOf& blocks, std::size_t threads, const Make& make,
                     const Work& work) {
    using Own = decltype(make());
    std::vector<Own> own;
    for (std::size_t i = workers_for(blocks.count(), threads); i > 0; --i) {
        own.push_back(make());
    }
    for_blocks(blocks, threads, [&](std::size_t first, std::size_t last, std::size_t worker) {
        work(own[worker], first, last);
    });
}

}  // namespace samelight::parallel

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/parallel.ipp"
#endif
