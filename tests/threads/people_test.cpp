// Populations by several threads: people, their responses, targets, judges, groups of displays and of viewers.
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>

#include "numeric/refusals.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/display_group.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target_distribution.hpp"
#include "threads/same_for_threads.hpp"

namespace samelight {
namespace {

using test::Bits;

/// No multiple of a block.
Population some_people(std::size_t count = 1003) {
    PopulationParameters parameters;
    parameters.count = count;
    return Population(parameters);
}

Reference tube() {
    return display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
}

std::vector<Panel> three_panels() {
    return {generic_panel(generic_model("oled-rgb")), generic_panel(generic_model("oled-white")),
            generic_panel(generic_model("lcd-narrow-red"))};
}

void add_person(Bits& bits, const Individual& person) {
    bits.add(person.conditions.age_years).add_all(person.deviations.values());
}

TEST(ThreadsOfPeople, AreTheSamePeople) {
    test::expect_same_for_threads([](std::size_t threads) {
        Bits bits;
        for (const Individual& person : some_people().individuals(threads)) {
            add_person(bits, person);
        }
        return bits;
    });
}

TEST(ThreadsOfPeople, RespondTheSame) {
    const std::vector<Individual> everyone = some_people().individuals();
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    for (const auto precision :
         {BatchPrecision::double_precision, BatchPrecision::single_precision}) {
        test::expect_same_for_threads([&](std::size_t threads) {
            const PopulationResponses seen = population_responses(
                everyone, panel.sampling(), panel.emitters(), {precision, true, threads});
            Bits bits;
            bits.add_all(seen.values());
            for (std::size_t i = 0; i < seen.size(); ++i) {
                bits.add_all(seen.equal_energy(i));
            }
            return bits;
        });
    }
}

TEST(ThreadsOfPeople, HaveTheSameTargets) {
    // From a white as it stands some people have none; the counts are among what is compared.
    const std::vector<Panel> panels = three_panels();
    test::expect_same_for_threads([&](std::size_t threads) {
        DistributionOptions options;
        options.bases = {NativeWhite{}, WhiteSetTo{{0.30, 0.31}}, NativeWhite{}};
        options.threads = threads;
        Bits bits;
        for (const TargetDistribution& d :
             target_distributions(panels, tube(), some_people(), options)) {
            bits.add_all(d.x).add_all(d.y).add(d.outside).add(d.impossible);
        }
        return bits;
    });
}

TEST(ThreadsOfPeople, SeeTheSame) {
    const std::vector<Panel> panels = three_panels();
    const std::vector<Individual> everyone = some_people(300).individuals();
    test::expect_same_for_threads([&](std::size_t threads) {
        DistributionOptions options;
        options.threads = threads;
        Bits bits;
        for (const WhiteJudge& judge : white_judges(panels, tube(), everyone, options)) {
            for (const SeenDifference& seen : judge.seen({0.31, 0.325})) {
                bits.add(seen.uv).add(seen.de00);
            }
        }
        return bits;
    });
}

TEST(ThreadsOfPeople, SetAGroupOfDisplaysTheSame) {
    const std::vector<Panel> panels = three_panels();
    const std::vector<Individual> everyone = some_people(200).individuals();
    test::expect_same_for_threads([&](std::size_t threads) {
        Bits bits;
        for (const GroupSetting& setting :
             judge_display_group(panels, tube(), {standard_observer<Cie2015_2deg>(), everyone},
                                 {{}, 1.0, {}, threads})) {
            for (const auto& white : setting.whites) {
                bits.add(white.x()).add(white.y());
            }
            bits.add(setting.between_mean_uv).add(setting.from_reference_mean_uv);
        }
        return bits;
    });
}

TEST(ThreadsOfPeople, RefuseTheSamePerson) {
    std::vector<Individual> everyone = some_people(600).individuals();
    everyone[130].conditions.age_years = 10.0;
    everyone[590].conditions.age_years = 11.0;
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    for (const std::size_t threads : {1U, 2U, 8U}) {
        const std::string said = test::refusal(ErrorKind::domain, [&] {
            static_cast<void>(
                population_responses(everyone, panel.sampling(), panel.emitters(),
                                     {BatchPrecision::double_precision, false, threads}));
        });
        EXPECT_TRUE(test::contains(said, "10")) << said;
    }
}

}  // namespace
}  // namespace samelight
