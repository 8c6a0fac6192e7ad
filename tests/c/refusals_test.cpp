// Every function of the C interface with what it should not be given: null, zero counts, NaN, sizes that are none. Nothing crashes, what is refused is
// said in one line, and outputs stay as they were.
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <cstring>
#include <memory>
#include <random>
#include <string>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "c/bent.hpp"
#include "c/world.hpp"
#include "samelight/c/samelight.h"

namespace c_interface {
namespace {

constexpr double untouched = 12345.0;

World& world() {
    static World own;
    return own;
}

/// Where outputs go; every call finds it as it was.
struct Outputs {
    std::array<double, 4096> numbers{};
    std::array<std::int32_t, 64> wholes{};
    samelight_error error{};
    samelight_text* text = nullptr;
    samelight_observer* observer = nullptr;
    samelight_panel* panel = nullptr;
    samelight_reference* reference = nullptr;
    samelight_population* population = nullptr;
    samelight_white_answer* white = nullptr;
    samelight_correction* correction = nullptr;
    samelight_check_answer* check = nullptr;

    void reset() {
        numbers.fill(untouched);
        wholes.fill(-1);
        error = {};
        std::memset(error.message, 'x', sizeof(error.message));
    }
    void destroy() {
        samelight_text_destroy(std::exchange(text, nullptr));
        samelight_observer_destroy(std::exchange(observer, nullptr));
        samelight_panel_destroy(std::exchange(panel, nullptr));
        samelight_reference_destroy(std::exchange(reference, nullptr));
        samelight_population_destroy(std::exchange(population, nullptr));
        samelight_white_answer_destroy(std::exchange(white, nullptr));
        samelight_correction_destroy(std::exchange(correction, nullptr));
        samelight_check_answer_destroy(std::exchange(check, nullptr));
    }
    [[nodiscard]] bool made_anything() const {
        return text || observer || panel || reference || population || white || correction || check;
    }
    [[nodiscard]] bool wrote_anything() const {
        for (const double value : numbers) {
            if (value != untouched) return true;
        }
        for (const std::int32_t value : wholes) {
            if (value != -1) return true;
        }
        return false;
    }
};

Outputs& outputs() {
    static Outputs own;
    return own;
}

/// What an argument may be instead, with what owns it.
template <class T>
std::vector<T> instead_of(T value) {
    if constexpr (std::is_same_v<T, double>) {
        return odd_numbers();
    } else if constexpr (std::is_same_v<T, std::size_t>) {
        return odd_counts();
    } else if constexpr (std::is_same_v<T, const char*>) {
        static const std::string long_name(100'000, 'a');
        return {nullptr,          "", "\xff", "no such thing", "two\nlines", "cie2006:nan:2",
                long_name.c_str()};
    } else if constexpr (std::is_pointer_v<T> &&
                         has_bends<std::remove_const_t<std::remove_pointer_t<T>>>) {
        using S = std::remove_const_t<std::remove_pointer_t<T>>;
        // Kept as long as the tests run.
        static std::vector<std::unique_ptr<S>> kept;
        std::vector<T> all = {nullptr};
        const auto bends = bends_of(value);
        for (const auto& bend : bends.all()) {
            kept.push_back(std::make_unique<S>(*value));
            bend(*kept.back());
            all.push_back(kept.back().get());
        }
        return all;
    } else {
        static_assert(std::is_pointer_v<T>);
        return {nullptr};
    }
}

/// One function, its right arguments, and which of these may be null.
template <class... A>
class Probe {
  public:
    Probe(std::string name, samelight_status (*function)(A...), std::set<std::size_t> may_be_null,
          A... arguments)
        : name_(std::move(name)),
          function_(function),
          may_be_null_(std::move(may_be_null)),
          right_(arguments...) {
        may_be_null_.insert(sizeof...(A) - 1);  // the error's place
    }

    /// Bends one argument after another, then some at once.
    void run() {
        EXPECT_EQ(call(right_, "as it should be"), SAMELIGHT_OK)
            << name_ << ": " << outputs().error.message;
        one_by_one(std::index_sequence_for<A...>());
        std::mt19937 random(1);
        const char* more = std::getenv("SAMELIGHT_C_FUZZ");
        const int rounds = more != nullptr ? std::atoi(more) : 8;
        for (int i = 0; i < rounds; ++i) {
            auto arguments = right_;
            some_at_once(arguments, random, std::index_sequence_for<A...>());
            static_cast<void>(call(arguments, "some at once"));
        }
    }

  private:
    samelight_status call(const std::tuple<A...>& arguments, const std::string& what) {
        Outputs& out = outputs();
        out.reset();
        const samelight_status status = std::apply(function_, arguments);
        if (status == SAMELIGHT_OK) {
            out.destroy();
            return status;
        }
        EXPECT_FALSE(out.made_anything()) << name_ << ", " << what;
        EXPECT_FALSE(out.wrote_anything()) << name_ << ", " << what;
        EXPECT_NE(status, SAMELIGHT_INTERNAL) << name_ << ", " << what << ": " << out.error.message;
        if (std::get<sizeof...(A) - 1>(arguments) != nullptr) {
            expect_said(out.error, status, what);
        }
        return status;
    }

    void expect_said(const samelight_error& error, samelight_status status,
                     const std::string& what) {
        EXPECT_EQ(error.status, status) << name_ << ", " << what;
        const auto* end =
            static_cast<const char*>(std::memchr(error.message, 0, sizeof(error.message)));
        ASSERT_NE(end, nullptr) << name_ << ", " << what;
        const std::string message(error.message, end);
        EXPECT_GT(message.size(), 5U) << name_ << ", " << what;
        EXPECT_EQ(message.find('\n'), std::string::npos)
            << name_ << ", " << what << ": " << message;
    }

    template <std::size_t... I>
    void one_by_one(std::index_sequence<I...>) {
        (bend<I>(), ...);
    }
    /// Bytes whose length is the next argument: others than these could only be null.
    template <std::size_t I>
    static constexpr bool has_length() {
        if constexpr (I + 1 < sizeof...(A)) {
            return std::is_same_v<std::tuple_element_t<I, std::tuple<A...>>, const char*> &&
                   std::is_same_v<std::tuple_element_t<I + 1, std::tuple<A...>>, std::size_t>;
        } else {
            return false;
        }
    }
    template <std::size_t I>
    [[nodiscard]] auto instead_of_argument() const {
        if constexpr (has_length<I>()) {
            return std::vector<const char*>{nullptr};
        } else {
            return instead_of(std::get<I>(right_));
        }
    }
    template <std::size_t I>
    void bend() {
        const auto all = instead_of_argument<I>();
        for (std::size_t k = 0; k < all.size(); ++k) {
            auto arguments = right_;
            std::get<I>(arguments) = all[k];
            const std::string what =
                "argument " + std::to_string(I) + " bent by " + std::to_string(k);
            const samelight_status status = call(arguments, what);
            if constexpr (std::is_pointer_v<std::tuple_element_t<I, std::tuple<A...>>>) {
                if (all[k] == nullptr) {
                    EXPECT_EQ(status == SAMELIGHT_OK, may_be_null_.count(I) > 0)
                        << name_ << ", " << what;
                }
            }
        }
    }
    template <std::size_t... I>
    void some_at_once(std::tuple<A...>& arguments, std::mt19937& random,
                      std::index_sequence<I...>) {
        const auto one = [&](auto& argument, const auto& all) {
            if (random() % 3 == 0) argument = all[random() % all.size()];
        };
        (one(std::get<I>(arguments), instead_of_argument<I>()), ...);
    }

    std::string name_;
    samelight_status (*function_)(A...);
    std::set<std::size_t> may_be_null_;
    std::tuple<A...> right_;
};

template <class... A, class... B>
void probe(const char* name, samelight_status (*function)(A...), std::set<std::size_t> may_be_null,
           B... arguments) {
    Probe<A...>(name, function, std::move(may_be_null), arguments..., &outputs().error).run();
}

#define PROBE(function, ...) probe(#function, function, __VA_ARGS__)

using Nulls = std::set<std::size_t>;

void probe_observers() {
    World& w = world();
    Outputs& out = outputs();
    double* numbers = out.numbers.data();
    PROBE(samelight_observer_named, Nulls{}, "cie1931-2deg", &out.observer);
    PROBE(samelight_observer_of_age, Nulls{}, 32.0, 2.0, &out.observer);
    PROBE(samelight_observer_from_table, Nulls{}, &w.table, &out.observer);
    PROBE(samelight_observer_sensitivities, Nulls{1}, w.observer, &w.sampling, numbers,
          std::size_t{0});
    PROBE(samelight_xyz_from_spectra, Nulls{2}, w.observer, &w.spectra, &w.sampling, numbers,
          std::size_t{0});
    PROBE(samelight_xy_from_xyz, Nulls{}, &w.rows, numbers, std::size_t{0});
    PROBE(samelight_uv_from_xyz, Nulls{}, &w.rows, numbers, std::size_t{0});
    PROBE(samelight_lab_from_xyz, Nulls{}, &w.rows, w.white_xyz.data(), numbers, std::size_t{0});
    PROBE(samelight_de2000_from_lab, Nulls{}, &w.rows, &w.more_rows, numbers, std::size_t{0});
}

void probe_panels() {
    World& w = world();
    Outputs& out = outputs();
    double* numbers = out.numbers.data();
    PROBE(samelight_panel_from_spectra, Nulls{}, &w.panel_spectra, &out.panel);
    PROBE(samelight_panel_from_csv, Nulls{}, "desk.csv", w.csv.c_str(), w.csv.size(), &out.panel);
    PROBE(samelight_panel_generic, Nulls{}, "oled-rgb", &out.panel);
    PROBE(samelight_panel_with_white, Nulls{}, w.panels[0], 0.31, 0.33, &out.panel);
    PROBE(samelight_panel_with_measured_white, Nulls{}, w.panels[0], &w.light, &out.panel);
    PROBE(samelight_reference_illuminant, Nulls{}, "D50", &out.reference);
    PROBE(samelight_reference_panel, Nulls{}, w.panels[0], &out.reference);
    PROBE(samelight_reference_spectrum, Nulls{}, "lamp", &w.light, &out.reference);
    PROBE(samelight_reference_xy, Nulls{}, w.reference, numbers);
}

void probe_people() {
    World& w = world();
    Outputs& out = outputs();
    double* numbers = out.numbers.data();
    PROBE(samelight_population_create, Nulls{0}, &w.people, &out.population);
    PROBE(samelight_population_cloud, Nulls{}, w.population, w.panels[0], w.reference, numbers,
          std::size_t{0});
    PROBE(samelight_population_spread_of, Nulls{}, w.population, w.panels[0], w.reference,
          &w.spread);
    PROBE(samelight_metamerism_of, Nulls{3}, w.panels[0], w.panels[1], w.reference, &w.metamerism,
          &w.figures);
    PROBE(samelight_metamerism_json, Nulls{3}, w.panels.data(), std::size_t{2}, w.reference,
          &w.metamerism, &out.text);
}

void probe_white() {
    World& w = world();
    Outputs& out = outputs();
    double* numbers = out.numbers.data();
    PROBE(samelight_white, Nulls{3}, w.reference, w.panels.data(), std::size_t{1}, &w.white_options,
          &out.white);
    PROBE(samelight_white_json, Nulls{3}, w.reference, w.panels.data(), std::size_t{1},
          &w.white_options, &out.text);
    PROBE(samelight_white_answer_part, Nulls{}, w.white_answer, std::size_t{0}, &w.part);
    PROBE(samelight_white_answer_targets, Nulls{}, w.white_answer, std::size_t{0}, numbers,
          std::size_t{0}, std::size_t{1});
    PROBE(samelight_white_answer_json, Nulls{}, w.white_answer, &out.text);
    PROBE(samelight_white_targets, Nulls{3, 6}, w.reference, &w.spectra, std::size_t{3},
          &w.white_options, numbers, std::size_t{0}, numbers + 1000, std::size_t{0});
}

void probe_corrections() {
    World& w = world();
    Outputs& out = outputs();
    double* numbers = out.numbers.data();
    PROBE(samelight_correction_fit, Nulls{1, 3}, &w.pairs, &w.fit, &out.correction, &out.text);
    PROBE(samelight_correction_model, Nulls{2, 4}, &w.meter, w.panels[0], w.observer,
          &out.correction, &out.text);
    PROBE(samelight_correction_facts_of, Nulls{}, w.correction, &w.facts);
    PROBE(samelight_correction_apply, Nulls{4, 6}, w.correction, &w.rows, numbers, std::size_t{0},
          numbers + 1000, std::size_t{0}, out.wholes.data());
    PROBE(samelight_correction_choose, Nulls{2}, &w.request, &w.choice, &out.text);
    PROBE(samelight_correction_from_json, Nulls{}, "kept.json", w.correction_json.c_str(),
          w.correction_json.size(), &out.correction);
    PROBE(samelight_correction_to_json, Nulls{}, w.correction, &out.text);
}

void probe_check() {
    World& w = world();
    Outputs& out = outputs();
    PROBE(samelight_check, Nulls{1}, &w.readings, &w.check, &out.check);
    PROBE(samelight_check_answer_summary, Nulls{}, w.check_answer, &w.summary);
    PROBE(samelight_check_answer_cause, Nulls{}, w.check_answer, std::size_t{0}, &w.cause);
    PROBE(samelight_check_answer_json, Nulls{}, w.check_answer, &out.text);
}

TEST(CRefusals, ObserversAndColours) { probe_observers(); }
TEST(CRefusals, PanelsAndReferences) { probe_panels(); }
TEST(CRefusals, People) { probe_people(); }
TEST(CRefusals, White) { probe_white(); }
TEST(CRefusals, Corrections) { probe_corrections(); }
TEST(CRefusals, Check) { probe_check(); }

#define TAKES_NULL(function) function(nullptr)

/// What gives no status takes null: it does nothing, or says the least there is.
void call_what_cannot_fail() {
    TAKES_NULL(samelight_observer_table_defaults);
    TAKES_NULL(samelight_panel_spectra_defaults);
    TAKES_NULL(samelight_population_options_defaults);
    TAKES_NULL(samelight_population_spread_defaults);
    TAKES_NULL(samelight_white_options_defaults);
    TAKES_NULL(samelight_white_part_defaults);
    TAKES_NULL(samelight_metamerism_options_defaults);
    TAKES_NULL(samelight_metamerism_figures_defaults);
    TAKES_NULL(samelight_paired_readings_defaults);
    TAKES_NULL(samelight_fit_options_defaults);
    TAKES_NULL(samelight_meter_defaults);
    TAKES_NULL(samelight_correction_facts_defaults);
    TAKES_NULL(samelight_choice_request_defaults);
    TAKES_NULL(samelight_choice_defaults);
    TAKES_NULL(samelight_patch_readings_defaults);
    TAKES_NULL(samelight_check_options_defaults);
    TAKES_NULL(samelight_check_summary_defaults);
    TAKES_NULL(samelight_check_cause_defaults);
    TAKES_NULL(samelight_text_destroy);
    TAKES_NULL(samelight_observer_destroy);
    TAKES_NULL(samelight_panel_destroy);
    TAKES_NULL(samelight_reference_destroy);
    TAKES_NULL(samelight_population_destroy);
    TAKES_NULL(samelight_white_answer_destroy);
    TAKES_NULL(samelight_correction_destroy);
    TAKES_NULL(samelight_check_answer_destroy);
}

TEST(CRefusals, WhatGivesNoStatusTakesNull) {
    call_what_cannot_fail();
    EXPECT_STREQ(samelight_text_data(nullptr), "");
    EXPECT_EQ(samelight_text_length(nullptr), 0U);
    EXPECT_STREQ(samelight_observer_id(nullptr), "");
    EXPECT_STREQ(samelight_panel_name(nullptr), "");
    EXPECT_EQ(samelight_population_count(nullptr), 0U);
    EXPECT_EQ(samelight_white_answer_count(nullptr), 0U);
    EXPECT_STREQ(samelight_status_name(SAMELIGHT_INTERNAL), "internal");
    EXPECT_STREQ(samelight_status_name(static_cast<samelight_status>(9)), "unknown");
    EXPECT_EQ(samelight_abi_version(), static_cast<std::uint32_t>(SAMELIGHT_ABI_VERSION));
}

}  // namespace
}  // namespace c_interface
