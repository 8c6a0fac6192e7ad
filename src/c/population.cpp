#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "c/base/arrays.hpp"
#include "c/base/guard.hpp"
#include "c/base/handles.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/c/samelight.h"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target_distribution.hpp"

namespace {

/// More people than this serve nobody, and take hours.
constexpr std::size_t most_people = 1'000'000;

samelight::PopulationParameters parameters_of(const samelight_population_options& own) {
    if (own.count == 0 || own.count > most_people) {
        throw samelight::Error(samelight::ErrorKind::domain, samelight::ErrorPlace{"population"},
                               std::to_string(own.count) + " people",
                               "1 to " + std::to_string(most_people));
    }
    samelight::PopulationParameters parameters;
    parameters.ages = samelight::Ages::range(own.youngest_years, own.oldest_years);
    parameters.field_deg = own.field_deg;
    parameters.count = own.count;
    parameters.seed = own.seed;
    return parameters;
}

samelight::TargetDistribution distribution_of(const samelight_population* population,
                                              const samelight_panel* panel,
                                              const samelight_reference* reference) {
    const samelight::Population& people = samelight::c::given(population, "population").value;
    const auto& display = samelight::c::given(panel, "panel").value;
    const auto& light = samelight::c::given(reference, "reference").value.reference;
    return samelight::assess::about({display.panel.name(), "reference " + light.name}, [&] {
        samelight::DistributionOptions options;
        options.base = display.white.base;
        options.threads = population->threads;
        return samelight::target_distributions({&display.panel, 1}, light, people, options).front();
    });
}

}  // namespace

void samelight_population_options_defaults(samelight_population_options* options) {
    if (options != nullptr) {
        *options = {sizeof(samelight_population_options), 1024, 20.0, 70.0, 2.0, 1, 1};
    }
}

samelight_status samelight_population_create(const samelight_population_options* options,
                                             samelight_population** population,
                                             samelight_error* error) {
    return samelight::c::made(population, "population", error, [&] {
        const auto own = samelight::c::taken_or_defaults(
            options, samelight_population_options_defaults, "options");
        return samelight_population{samelight::Population(parameters_of(own)), own.threads};
    });
}

size_t samelight_population_count(const samelight_population* population) {
    return population != nullptr ? population->value.size() : 0;
}

samelight_status samelight_population_cloud(const samelight_population* population,
                                            const samelight_panel* panel,
                                            const samelight_reference* reference, double* xy,
                                            size_t xy_stride, samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        const std::size_t count = samelight::c::given(population, "population").value.size();
        const samelight::c::RowsOut out(xy, 2, xy_stride, count, "xy");
        const auto cloud = distribution_of(population, panel, reference);
        std::vector<double> rows;
        for (std::size_t i = 0; i < count; ++i) {
            rows.push_back(cloud.x[i]);
            rows.push_back(cloud.y[i]);
        }
        out.write(rows);
    });
}

void samelight_population_spread_defaults(samelight_population_spread* spread) {
    if (spread != nullptr) {
        *spread = {};
        spread->size = sizeof(samelight_population_spread);
    }
}

samelight_status samelight_population_spread_of(const samelight_population* population,
                                                const samelight_panel* panel,
                                                const samelight_reference* reference,
                                                samelight_population_spread* spread,
                                                samelight_error* error) {
    return samelight::c::guarded(error, [&] {
        auto* out = samelight::c::answer_place(spread, "spread");
        const auto cloud = distribution_of(population, panel, reference);
        const samelight::TargetRegion region = samelight::target_region(cloud);
        samelight_population_spread said{sizeof(said),
                                         region.people,
                                         cloud.outside,
                                         cloud.impossible,
                                         {region.mean.x(), region.mean.y()},
                                         {region.median.x(), region.median.y()},
                                         {},
                                         region.ellipse_xy.semi_major,
                                         region.ellipse_xy.semi_minor,
                                         region.ellipse_xy.angle_deg};
        std::copy(region.covariance_xy.begin(), region.covariance_xy.end(), said.covariance_xy);
        samelight::c::hand_over(said, out);
    });
}

void samelight_population_destroy(samelight_population* population) { delete population; }
