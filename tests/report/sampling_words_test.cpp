// What the sampling guard found, in words.
#include <string>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/report/warning_words.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "spectrum/line_spectra.hpp"

namespace samelight {
namespace {

using report::sentence;
using samelight::test::contains;
using samelight::test::lines_on;

TEST(SamplingWords, HaveTheNumbers) {
    EXPECT_EQ(sentence(SamplingVerdict{}), "No peaks by which to judge the sampling.");
    EXPECT_EQ(
        sentence(judge_sampling(lines_on(Sampling(400.0, 1.0, 101), {{450.0, 9.04, 1.0}}))),
        "Sampled finely enough: the narrowest peak is 9.0 nm wide as the instrument saw it, which needs a step of 5 nm "
        "or less.");
    const std::string one = sentence(judge_sampling(
        lines_on(Sampling(400.0, 10.0, 31), {{630.2, 3.0, 1.0}, {500.0, 30.0, 0.2}})));
    EXPECT_TRUE(contains(one, "for the line at 630 nm (")) << one;
    EXPECT_TRUE(contains(one, " % of the light): it is narrower than 1.5 steps of 10 nm")) << one;
    EXPECT_TRUE(contains(one, "Measure at a step of 2 nm or less")) << one;
    const std::string two = sentence(judge_sampling(
        lines_on(Sampling(400.0, 10.0, 31), {{630.0, 8.0, 1.0}, {500.0, 8.0, 1.0}})));
    // Second route: by hand. Two equal lines, each with nearly all its light in three samples.
    EXPECT_TRUE(contains(
        two, "for the lines at 500 nm (50 % of the light), 630 nm (50 % of the light): they are"))
        << two;
    EXPECT_TRUE(contains(two, "Measure at a step of 5 nm or less")) << two;
}

}  // namespace
}  // namespace samelight
