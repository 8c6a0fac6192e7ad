#pragma once
// The bodies of numeric/parallel.hpp.

#include <algorithm>
#include <cstddef>

#include "samelight/numeric/parallel.hpp"

#if SAMELIGHT_HAS_THREADS
#include <atomic>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>
#endif

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::size_t threads_meant([[maybe_unused]] std::size_t threads) noexcept {
#if SAMELIGHT_HAS_THREADS
    constexpr std::size_t most = 256;
    const std::size_t meant = threads == 0 ? std::thread::hardware_concurrency() : threads;
    return std::clamp<std::size_t>(meant, 1, most);
#else
    return 1;
#endif
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

#if SAMELIGHT_HAS_THREADS

/// Blocks that several workers take from.
class SharedBlocks {
  public:
    SharedBlocks(std::size_t blocks, const parallel::BlockWork& work,
                 const parallel::BlockWork& then)
        : work_(work), then_(then), last_(blocks) {}

    /// What a worker does: a block after the other, until there is none, or one that comes before was the last.
    void work(std::size_t worker) noexcept {
        // A block is taken after all before it were: whoever waits for them waits for somebody who is at work.
        for (std::size_t block = next_++; block < last_; block = next_++) {
            try {
                const bool last = work_(block, worker);
                if (!then_.empty()) {
                    put_together(block, worker);
                }
                if (last) {
                    end_with(block, nullptr);
                }
            } catch (...) {
                end_with(block, std::current_exception());
            }
        }
    }

    /// After all workers have ended.
    [[nodiscard]] std::size_t last() const {
        if (error_) {
            std::rethrow_exception(error_);
        }
        return last_;
    }

  private:
    void end_with(std::size_t block, std::exception_ptr error) {
        const std::lock_guard lock(mutex_);
        if (block < last_) {
            last_ = block;
            error_ = std::move(error);
        }
        turn_.notify_all();
    }

    void put_together(std::size_t block, std::size_t worker) {
        {
            std::unique_lock lock(mutex_);
            turn_.wait(lock, [&] { return done_ == block || last_ < block; });
            if (last_ < block) {
                return;
            }
        }
        then_(block, worker);
        const std::lock_guard lock(mutex_);
        ++done_;
        turn_.notify_all();
    }

    const parallel::BlockWork& work_;
    const parallel::BlockWork& then_;
    std::atomic<std::size_t> next_ = 0;
    /// The first block that threw or was the last wanted; none: their number.
    std::atomic<std::size_t> last_;
    std::mutex mutex_;
    std::condition_variable turn_;
    /// Blocks, from the first on, that were put together.
    std::size_t done_ = 0;
    std::exception_ptr error_;
};

/// Threads that are waited for however this ends.
class Helpers {
  public:
    Helpers() = default;
    Helpers(const Helpers&) = delete;
    Helpers& operator=(const Helpers&) = delete;
    ~Helpers() { wait(); }

    void start(SharedBlocks& blocks, std::size_t count) {
        try {
            threads_.reserve(count);
            for (std::size_t worker = 1; worker <= count; ++worker) {
                threads_.emplace_back([&blocks, worker] { blocks.work(worker); });
            }
        } catch (const std::system_error&) {
            // The machine has no more: those that there are do the work.
        }
    }
    void wait() noexcept {
        for (std::thread& thread : threads_) {
            thread.join();
        }
        threads_.clear();
    }

  private:
    std::vector<std::thread> threads_;
};

#endif

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::parallel {

SAMELIGHT_INLINE std::size_t workers_for(std::size_t blocks, std::size_t threads) noexcept {
    return std::clamp<std::size_t>(blocks, 1, threads_meant(threads));
}

#if SAMELIGHT_HAS_THREADS

SAMELIGHT_INLINE std::size_t work_in_blocks(std::size_t blocks, std::size_t threads, BlockWork work,
                                            BlockWork then) {
    if (const std::size_t workers = workers_for(blocks, threads); workers > 1) {
        detail::SharedBlocks shared(blocks, work, then);
        {
            detail::Helpers helpers;
            helpers.start(shared, workers - 1);
            shared.work(0);
        }
        return shared.last();
    }
    for (std::size_t block = 0; block < blocks; ++block) {
        const bool last = work(block, 0);
        if (!then.empty()) {
            then(block, 0);
        }
        if (last) {
            return block;
        }
    }
    return blocks;
}

#endif

}  // namespace samelight::parallel
