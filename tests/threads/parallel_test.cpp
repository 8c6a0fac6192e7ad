// Work in blocks: every block once, what is added up in their order, the first error, and that several threads are at work.
#include <chrono>
#include <condition_variable>
#include <cstddef>
#include <mutex>
#include <numeric>
#include <stdexcept>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/numeric/parallel.hpp"

namespace samelight {
namespace {

constexpr std::size_t numbers_of_threads[] = {0, 1, 2, 3, 8, 40};

TEST(WorkInBlocks, DoesEveryBlockOnceAndPutsTogetherInTheirOrder) {
    for (const std::size_t threads : numbers_of_threads) {
        for (const std::size_t blocks : {0U, 1U, 2U, 7U, 500U}) {
            std::vector<int> done(blocks, 0);
            std::vector<std::size_t> own(parallel::workers_for(blocks, threads));
            std::vector<std::size_t> order;
            parallel::work_in_blocks(
                blocks, threads,
                [&](std::size_t block, std::size_t worker) {
                    ++done[block];
                    own.at(worker) = block;
                },
                // What the worker's own place holds is still of that block.
                [&](std::size_t, std::size_t worker) { order.push_back(own.at(worker)); });
            EXPECT_EQ(done, std::vector<int>(blocks, 1)) << threads << " threads";
            std::vector<std::size_t> wanted(blocks);
            std::iota(wanted.begin(), wanted.end(), std::size_t{0});
            EXPECT_EQ(order, wanted) << threads << " threads";
        }
    }
}

TEST(WorkInBlocks, BlocksCoverEveryItem) {
    for (const std::size_t items : {0U, 1U, 15U, 16U, 17U, 160U}) {
        std::vector<int> seen(items, 0);
        parallel::for_blocks({items, 16}, 3, [&](std::size_t first, std::size_t last, std::size_t) {
            EXPECT_LT(first, last);
            EXPECT_LE(last - first, 16U);
            for (std::size_t i = first; i < last; ++i) {
                ++seen[i];
            }
        });
        EXPECT_EQ(seen, std::vector<int>(items, 1)) << items;
    }
}

TEST(WorkInBlocks, EachWorkerHasItsOwn) {
    // Sums of whole numbers, which are exact in any order.
    constexpr std::size_t items = 1000;
    for (const std::size_t threads : numbers_of_threads) {
        std::vector<std::size_t> of_blocks(items, 0);
        parallel::for_blocks_with(
            parallel::BlocksOf{items, 10}, threads, [] { return std::vector<std::size_t>(); },
            [&](std::vector<std::size_t>& own, std::size_t first, std::size_t last) {
                own.clear();
                for (std::size_t i = first; i < last; ++i) {
                    own.push_back(i);
                }
                of_blocks[first] = std::accumulate(own.begin(), own.end(), std::size_t{0});
            });
        EXPECT_EQ(std::accumulate(of_blocks.begin(), of_blocks.end(), std::size_t{0}),
                  items * (items - 1) / 2);
    }
}

/// The words of what `action` throws; none where it throws nothing.
template <class Action>
std::string thrown_by(const Action& action) {
    try {
        action();
    } catch (const std::runtime_error& error) {
        return error.what();
    }
    return "nothing";
}

TEST(WorkInBlocks, TheFirstErrorInTheOrderOfTheBlocksReachesTheCaller) {
    for (const std::size_t threads : numbers_of_threads) {
        for (int again = 0; again < 50; ++again) {
            std::vector<std::size_t> together;
            const auto work = [](std::size_t block, std::size_t) {
                if (block == 5 || block == 9 || block == 90) {
                    throw std::runtime_error("block " + std::to_string(block));
                }
            };
            EXPECT_EQ(thrown_by([&] {
                          parallel::work_in_blocks(
                              100, threads, work,
                              [&](std::size_t block, std::size_t) { together.push_back(block); });
                      }),
                      "block 5")
                << threads << " threads";
            EXPECT_EQ(together, (std::vector<std::size_t>{0, 1, 2, 3, 4})) << threads << " threads";
        }
    }
}

TEST(WorkInBlocks, AnErrorOfPuttingTogetherIsOneOfItsBlock) {
    for (const std::size_t threads : numbers_of_threads) {
        const auto fail_at = [](std::size_t at) {
            return [at](std::size_t block, std::size_t) {
                if (block == at) {
                    throw std::runtime_error("block " + std::to_string(block));
                }
            };
        };
        const auto both = [&](std::size_t work, std::size_t then) {
            return thrown_by(
                [&] { parallel::work_in_blocks(40, threads, fail_at(work), fail_at(then)); });
        };
        EXPECT_EQ(both(12, 3), "block 3") << threads << " threads";
        EXPECT_EQ(both(3, 12), "block 3") << threads << " threads";
        EXPECT_EQ(both(40, 12), "block 12") << threads << " threads";
        EXPECT_EQ(both(40, 40), "nothing") << threads << " threads";
    }
}

TEST(WorkInBlocks, TwoBlocksAreAtWorkAtOnce) {
    if (threads_meant(2) < 2) {
        GTEST_SKIP() << "no threads here";
    }
    std::mutex mutex;
    std::condition_variable both;
    int begun = 0;
    bool met = true;
    parallel::work_in_blocks(2, 2, [&](std::size_t, std::size_t) {
        std::unique_lock lock(mutex);
        ++begun;
        both.notify_all();
        // One after the other they would wait for ever.
        met = both.wait_for(lock, std::chrono::seconds(60), [&] { return begun == 2; }) && met;
    });
    EXPECT_TRUE(met);
}

TEST(WorkInBlocks, WorksWithinWork) {
    std::vector<std::size_t> sums(6, 0);
    parallel::work_in_blocks(sums.size(), 3, [&](std::size_t outer, std::size_t) {
        parallel::work_in_blocks(
            10, 2, [](std::size_t, std::size_t) {},
            [&](std::size_t inner, std::size_t) { sums[outer] += inner; });
    });
    EXPECT_EQ(sums, std::vector<std::size_t>(6, 45));
}

TEST(Threads, AreMeantAsSaid) {
    const bool any = threads_meant(2) == 2;
    EXPECT_EQ(threads_meant(1), 1U);
    EXPECT_GE(threads_meant(0), 1U);
    EXPECT_EQ(threads_meant(1000000), any ? 256U : 1U);
    EXPECT_EQ(parallel::workers_for(0, 8), 1U);
    EXPECT_EQ(parallel::workers_for(3, 8), any ? 3U : 1U);
    EXPECT_EQ(parallel::workers_for(300, 8), any ? 8U : 1U);
}

}  // namespace
}  // namespace samelight
