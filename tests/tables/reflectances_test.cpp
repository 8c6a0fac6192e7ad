// The table of reflectances: what its groups promise, and values read in the source.
#include <array>
#include <cstddef>
#include <set>
#include <string>
#include <string_view>

#include <gtest/gtest.h>

#include "samelight/tables/reflectances.hpp"

namespace {

namespace t = samelight::tables::reflectances;

double value(std::string_view name, int nm) {
    for (std::size_t j = 0; j < t::names.size(); ++j) {
        if (name == t::names[j]) {
            return t::values[j * t::count + static_cast<std::size_t>((nm - 400) / 10)];
        }
    }
    ADD_FAILURE() << "no surface named " << name;
    return -1.0;
}

TEST(Reflectances, RangeAndCountsAreAsStated) {
    EXPECT_EQ(t::first_nm, 400.0);
    EXPECT_EQ(t::step_nm, 10.0);
    EXPECT_EQ(t::count, 31);
    EXPECT_EQ(t::columns, 140);
    EXPECT_EQ(t::names.size() * t::count, t::values.size());
    std::set<std::string> names;
    std::array<int, 4> groups{};
    for (const std::string name : t::names) {
        names.insert(name);
        const std::array<std::string, 4> beginnings = {"neutral_", "skin_", "foliage_",
                                                       "saturated_"};
        for (std::size_t g = 0; g < 4; ++g) {
            groups[g] += name.starts_with(beginnings[g]) ? 1 : 0;
        }
    }
    EXPECT_EQ(names.size(), 140U);
    EXPECT_EQ(groups, (std::array<int, 4>{20, 20, 24, 76}));
    for (const double v : t::values) {
        EXPECT_GE(v, 0.0);
        EXPECT_LE(v, 1.0);
    }
}

// Source: sur_vrhel.mat, sur_koivisto.mat (12-bit integers) and sur_nickerson.mat of Debian's psychtoolbox-3-common, read at single
// wavelengths by SciPy's reader, by column number.
TEST(Reflectances, ValuesReadInTheSource) {
    EXPECT_EQ(value("foliage_vrhel_016", 550), 0.1332);
    EXPECT_EQ(value("skin_vrhel_081", 700), 0.7051);
    EXPECT_EQ(value("saturated_koivisto_044", 600), 3199.0 / 4096.0);
    EXPECT_EQ(value("neutral_nickerson_005", 400), 0.203);
}

}  // namespace
