// Which correction: what a wrong one does, and whether the errors that are expected are those that happen.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Eigenvalues>

#include "meter/invented_meter.hpp"
#include "numeric/test_random.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/selection/candidates.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/choose.hpp"
#include "samelight/meter/selection/likely_meter.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

const Observer& cie1931() { return standard_observer<Cie1931_2deg>(); }

/// A unit of a type: parameters anywhere within their plausible ranges.
Panel unit(const GenericModel& model, test::Random& random) {
    std::vector<double> values;
    for (const ModelParameter& p : model.parameters()) {
        values.push_back(random.between(p.low, p.high));
    }
    return generic_panel(model, values);
}

std::vector<Panel> generic_panels() {
    std::vector<Panel> panels;
    for (const GenericModel& model : generic_models()) {
        panels.push_back(generic_panel(model));
    }
    return panels;
}

/// Distance in x, y of a panel's white read by a meter through a matrix.
double white_error(const Sensitivities& meter, const Correction& correction, const Panel& panel) {
    const Eigen::Vector3d read = correction.matrix() * (meter.rows() * panel.white());
    const Eigen::Vector3d truth = cie1931().on(panel.sampling()).rows() * panel.white();
    return (read.head<2>() / read.sum() - truth.head<2>() / truth.sum()).norm();
}

Correction made_on(const Sensitivities& meter, const Panel& panel) {
    return correction_from_spectra(meter, panel, cie1931());
}

double mean(const std::vector<double>& v) {
    double sum = 0.0;
    for (const double x : v) {
        sum += x / static_cast<double>(v.size());
    }
    return sum;
}

/// Another unit of the same make: its peaks and edges up to 2 nm away, everything else alike.
Panel same_make(const GenericModel& model, test::Random& random) {
    std::vector<double> values = model.default_values();
    for (std::size_t i = 0; i < values.size(); ++i) {
        const ParameterKind kind = model.parameters()[i].kind;
        if (kind == ParameterKind::wavelength || kind == ParameterKind::shift) {
            values[i] += random.between(-2.0, 2.0);
        }
    }
    return generic_panel(model, values);
}

/// What reading one panel's white does with no correction, with those of other units, and with those of the other types; x, y, averaged
/// over the invented meters.
struct WrongMatrixRow {
    double none = 0.0, make = 0.0, type = 0.0;
    std::vector<double> others;  ///< one a panel, its own at 0
};

WrongMatrixRow wrong_matrices(const std::vector<Panel>& panels, std::size_t i,
                              test::Random& random) {
    WrongMatrixRow row;
    row.others.assign(panels.size(), 0.0);
    const auto meters = test::invented_meters();
    const double share = 1.0 / static_cast<double>(meters.size());
    for (const test::InventedMeter& invented : meters) {
        const Sensitivities meter = invented.on(panels[i].sampling());
        const GenericModel& model = generic_models()[i];
        row.none += share * white_error(meter, Correction{}, panels[i]);
        constexpr int units = 16;
        for (int k = 0; k < units; ++k) {
            row.make += share / units *
                        white_error(meter, made_on(meter, same_make(model, random)), panels[i]);
            row.type +=
                share / units * white_error(meter, made_on(meter, unit(model, random)), panels[i]);
        }
        for (std::size_t j = 0; j < panels.size(); ++j) {
            row.others[j] += share * white_error(meter, made_on(meter, panels[j]), panels[i]);
        }
    }
    return row;
}

// The table: four meters of f1' near 5 %, each panel's white read without correction, with that of another unit, and with that of each other
// type. The bounds are a study's on other spectra (none .008-.009, another unit .0005-.0009, another type .0035-.0117, a third of the pairs
// worse than none), widened by a factor of two.
TEST(WrongMatrix, IsOftenWorseThanNone) {
    const std::vector<Panel> panels = generic_panels();
    test::Random random(5);
    WrongMatrixRow all;
    double other = 0.0;
    int worse_pairs = 0;
    std::printf(
        "[ table    ] white, error in x, y    none  other unit  anywhere in the type  other "
        "type: least mean most  worse than none\n");
    for (std::size_t i = 0; i < panels.size(); ++i) {
        WrongMatrixRow row = wrong_matrices(panels, i, random);
        EXPECT_NEAR(row.others[i], 0.0, 1e-9 + (panels[i].white_is_base() ? 0.005 : 0.0));
        row.others.erase(row.others.begin() + static_cast<std::ptrdiff_t>(i));
        const auto worse = std::count_if(row.others.begin(), row.others.end(),
                                         [&](double error) { return error >= row.none; });
        std::printf(
            "[ table    ] %-22s %.4f      %.4f                %.4f            %.4f %.4f %.4f"
            "      %d of %zu\n",
            panels[i].name().c_str(), row.none, row.make, row.type,
            *std::min_element(row.others.begin(), row.others.end()), mean(row.others),
            *std::max_element(row.others.begin(), row.others.end()), static_cast<int>(worse),
            row.others.size());
        const double share = 1.0 / static_cast<double>(panels.size());
        worse_pairs += static_cast<int>(worse);
        all.none += share * row.none;
        all.make += share * row.make;
        all.type += share * row.type;
        other += share * mean(row.others);
        EXPECT_LT(row.make, row.none) << panels[i].name();
        EXPECT_LT(row.make, mean(row.others)) << panels[i].name();
    }
    std::printf(
        "[ table    ] mean: none %.4f, other unit %.4f, anywhere in the type %.4f, other type "
        "%.4f; worse than none in %d of %zu pairs\n",
        all.none, all.make, all.type, other, worse_pairs, panels.size() * (panels.size() - 1));
    EXPECT_GT(all.none, 0.004);
    EXPECT_LT(all.none, 0.018);
    EXPECT_LT(all.make, 0.0018);
    EXPECT_GT(other, 0.00175);
    EXPECT_LT(other, 0.0234);
    EXPECT_NEAR(worse_pairs, 36, 5);  // the README's "about half" of these meters
}

// Without the meter's rows, the errors expected must be those that happen, on average over meters and panels: neither timid nor bold.
TEST(ChooseCorrections, ExpectsTheErrorsThatHappen) {
    const std::vector<Panel> panels = generic_panels();
    struct Ratio {
        double happened = 0.0, expected = 0.0;
        void add(double h, double e) {
            happened += h * h;
            expected += e * e;
        }
        [[nodiscard]] double value() const { return std::sqrt(happened / expected); }
    };
    Ratio none, unknown, other;
    for (const test::InventedMeter& invented : test::invented_meters()) {
        const Sensitivities meter = invented.on(panels[0].sampling());
        for (std::size_t j = 0; j < panels.size(); ++j) {
            const std::vector<CandidateCorrection> one = {
                {panels[j].name(), made_on(meter, panels[j]), panels[j]}};
            const Choices choices = choose_corrections(panels, one);
            for (std::size_t i = 0; i < panels.size(); ++i) {
                const PanelChoice& c = choices.panels[i];
                none.add(white_error(meter, Correction{}, panels[i]), c.none.white_xy);
                if (i != j) {
                    other.add(white_error(meter, one[0].correction, panels[i]),
                              c.with[0].error->white_xy);
                }
            }
            const Choices blank = choose_corrections({&panels[j], 1}, {});
            unknown.add(white_error(meter, Correction{}, panels[j]), blank.panels[0].none.white_xy);
        }
    }
    std::printf(
        "[ table    ] happened over expected: none, nothing known %.2f; none, one correction "
        "known %.2f; with another type's %.2f\n",
        unknown.value(), none.value(), other.value());
    for (const Ratio& r : {unknown, none, other}) {
        EXPECT_GT(r.value(), 0.6);
        EXPECT_LT(r.value(), 1.6);
    }
}

// With the meter's rows known, the expected error is no expectation but what the matrix does.
TEST(ChooseCorrections, WithTheMetersRowsSaysWhatHappens) {
    const std::vector<Panel> panels = generic_panels();
    const Sensitivities meter = test::invented_meters()[1].on(panels[0].sampling());
    std::vector<CandidateCorrection> known;
    for (const std::size_t j : {2U, 5U}) {
        known.push_back({panels[j].name(), made_on(meter, panels[j]), panels[j]});
    }
    ChooseOptions options;
    options.meter = meter;
    const Choices choices = choose_corrections(panels, known, options);
    for (std::size_t i = 0; i < panels.size(); ++i) {
        const PanelChoice& c = choices.panels[i];
        EXPECT_NEAR(c.none.white_xy, white_error(meter, Correction{}, panels[i]), 1e-12);
        for (std::size_t j = 0; j < 2; ++j) {
            const double error = white_error(meter, known[j].correction, panels[i]);
            EXPECT_NEAR(c.with[j].error->white_xy, error, 1e-12);
            EXPECT_EQ(c.with[j].worse_than_none,
                      c.with[j].error->white_uv > c.none.white_uv + readable_difference);
            if (error > 1e-6) {  // u'v' of whites is 0.5 to 0.8 of x, y; DE00 is some 1000 u'v'
                EXPECT_GT(c.with[j].error->white_uv / error, 0.4);
                EXPECT_LT(c.with[j].error->white_uv / error, 1.1);
                EXPECT_GT(c.with[j].error->white_de00 / c.with[j].error->white_uv, 500.0);
                EXPECT_LT(c.with[j].error->white_de00 / c.with[j].error->white_uv, 2000.0);
            }
        }
    }
    EXPECT_EQ(choices.panels[2].verdict, Choice::safe);
    EXPECT_EQ(*choices.panels[2].best, 0U);
    EXPECT_EQ(choices.panels[5].verdict, Choice::safe);
    EXPECT_EQ(*choices.panels[5].best, 1U);
    EXPECT_EQ(choices.supposed_mismatch, 0.0);
    EXPECT_NEAR(*choices.panels[2].with[0].panel_distance_nm, 0.0, 1e-9);
}

TEST(ChooseCorrections, GivesAllThreeVerdicts) {
    const std::vector<Panel> panels = generic_panels();
    const Sensitivities meter = test::invented_meters()[0].on(panels[0].sampling());
    std::array<int, 3> given{};
    const ChooseOptions options;
    for (const std::size_t j : {2U, 4U, 5U}) {  // a white-LED LCD, one with dots, separate emitters
        const std::vector<CandidateCorrection> known = {
            {"last year's", made_on(meter, panels[j]), panels[j]}};
        const Choices choices = choose_corrections(panels, known, options);
        EXPECT_EQ(choices.panels[j].verdict, Choice::safe);
        for (const PanelChoice& c : choices.panels) {
            ++given[static_cast<std::size_t>(c.verdict)];
            const double share = c.with[0].error->white_uv / c.none.white_uv;
            EXPECT_EQ(c.good_enough, c.verdict != Choice::measure_panel);
            EXPECT_EQ(c.good_enough, c.chosen().white_uv <= options.safe_uv);
            if (c.best) {
                EXPECT_LT(share, c.verdict == Choice::safe ? 1.0 : options.worth_share);
                EXPECT_EQ(&c.chosen(), &*c.with[0].error);
            } else {
                EXPECT_GT(share, options.worth_share);
                EXPECT_EQ(&c.chosen(), &c.none);
                EXPECT_EQ(c.better_dropped,
                          c.verdict == Choice::measure_panel &&
                              readably_less(c.with[0].error->white_uv, c.none.white_uv));
            }
        }
    }
    // A meter that is right needs none.
    ChooseOptions right;
    right.meter = cie1931().on(panels[0].sampling());
    const std::vector<CandidateCorrection> other = {{"other meter's", made_on(meter, panels[2])}};
    const Choices none = choose_corrections({&panels[2], 1}, other, right);
    EXPECT_EQ(none.panels[0].verdict, Choice::use_none);
    EXPECT_TRUE(none.panels[0].good_enough);
    ++given[static_cast<std::size_t>(none.panels[0].verdict)];
    for (const int count : given) {
        EXPECT_GT(count, 0);
    }
    EXPECT_STREQ(code_of(Choice::measure_panel), "measure this panel");
    // Nothing at hand, and a meter of which nothing is known.
    EXPECT_EQ(choose_corrections({&panels[0], 1}, {}).panels[0].verdict, Choice::measure_panel);
}

// What is known of a meter makes it less of a riddle: the more corrections, the smaller what is expected of none or of another's is unsure.
TEST(LikelyMeter, LearnsFromWhatItHasRead) {
    const std::vector<Panel> panels = generic_panels();
    const Sampling& sampling = panels[0].sampling();
    const Sensitivities meter = test::invented_meters()[3].on(sampling);
    std::vector<KnownReading> known;
    double before = 1e9;
    for (const std::size_t j : {4U, 2U, 6U, 1U}) {
        const LikelyMeter likely(sampling, {}, known);
        const LikelyAnswers answers = likely.answers(panels[0].white());
        const double unsure = answers.covariance_of(0).trace();
        EXPECT_LT(unsure, before);
        before = unsure;
        for (Eigen::Index k = 0; k < 3; ++k) {
            const Eigen::VectorXd light = panels[j].emitters().col(k);
            known.push_back(
                {{light.begin(), light.end()}, detail::as_array(meter.rows() * light), 0.001});
        }
    }
    // And what it has read, it says again.
    const LikelyMeter likely(sampling, {}, known);
    const LikelyAnswers again = likely.answers(panels[2].white());
    const Eigen::Vector3d truth = meter.rows() * panels[2].white();
    EXPECT_LT((again.xyz(0) - truth).norm() / truth.norm(), 0.002);
}

// Rows drawn from the supposition have the mismatch that was supposed, and read illuminant A right.
TEST(LikelyMeter, SupposesTheMismatchItSays) {
    const Sampling sampling{380.0, 5.0, 81};
    const LikelyMeter likely(sampling, {0.06, 20.0, 1e-6});
    const Eigen::MatrixXd each = Eigen::MatrixXd::Identity(81, 81);
    const LikelyAnswers rows = likely.answers(each);
    const Eigen::Index n = rows.size();
    const Eigen::Map<const Eigen::MatrixXd> covariance(rows.covariance.data(), n, n);
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(covariance);
    test::Random random(9);
    const SampledLight lamp = calibration_lamp(sampling);
    const Sensitivities target = cie1931().on(sampling);
    std::array<double, 3> index{};
    constexpr int meters = 200;
    for (int m = 0; m < meters; ++m) {
        Eigen::VectorXd draw = Eigen::VectorXd::Zero(n);
        for (Eigen::Index k = 0; k < n; ++k) {
            draw += std::sqrt(std::max(0.0, axes.eigenvalues()[k])) * random.normal() *
                    axes.eigenvectors().col(k);
        }
        for (Eigen::Index row = 0; row < 3; ++row) {
            Eigen::RowVectorXd channel = target.rows().row(row);
            for (Eigen::Index i = 0; i < 81; ++i) {
                channel[i] += draw[3 * i + row];
            }
            EXPECT_NEAR(
                calibration_factor(channel, target.rows().row(row), lamp.column().transpose()), 1.0,
                1e-4);
            index[static_cast<std::size_t>(row)] +=
                mismatch_index(channel, target.rows().row(row), lamp.column().transpose()) / meters;
        }
    }
    // The mean of 200 has a standard error of about 2 %.
    for (const double i : index) {
        EXPECT_NEAR(i, 0.06, 0.06 * 0.08);
    }
}

TEST(ChooseCorrections, SaysWhatItCannotJudgeAndRefusesWhatItMust) {
    const std::vector<Panel> panels = generic_panels();
    const Sensitivities meter = test::invented_meters()[0].on(panels[0].sampling());
    std::vector<CandidateCorrection> known = {
        {"cones", correction_from_spectra(meter, panels[2], cie2006_cones_2deg()), panels[2]},
        {"no spectra", made_on(meter, panels[2]), {}}};
    known[0].correction.provenance.meter_instrument = "meter A";
    known[1].correction.provenance.meter_instrument = "meter B";
    const Choices choices = choose_corrections({&panels[2], 1}, known);
    EXPECT_FALSE(choices.panels[0].with[0].error);
    EXPECT_EQ(choices.panels[0].with[0].why_not, CannotJudge::cones);
    EXPECT_FALSE(choices.panels[0].with[1].error) << "of a meter that is not known";
    EXPECT_EQ(choices.panels[0].with[1].why_not, CannotJudge::no_panel_spectra);
    EXPECT_FALSE(choices.panels[0].with[1].worse_than_none);
    EXPECT_FALSE(choices.panels[0].with[1].panel_distance_nm);
    ChooseOptions by_rows;
    by_rows.meter = meter;
    const Choices judged = choose_corrections({&panels[2], 1}, known, by_rows);
    ASSERT_TRUE(judged.panels[0].with[1].error);
    EXPECT_LT(judged.panels[0].with[1].error->white_xy, 1e-6) << "at home, by the meter itself";
    ASSERT_EQ(choices.warnings.size(), 1U);
    EXPECT_EQ(choices.warnings[0].code, "different_meters");
    EXPECT_THROW(static_cast<void>(choose_corrections(std::vector<Panel>{}, known)), Error);
    ChooseOptions options;
    options.safe_uv = 0.0;
    EXPECT_THROW(static_cast<void>(choose_corrections(panels, known, options)), Error);
    EXPECT_THROW(LikelyMeter({}, {0.0, 20.0, 0.05}), Error);
    EXPECT_THROW(static_cast<void>(LikelyMeter{{}}.answers(Eigen::MatrixXd::Ones(3, 1))), Error);
}

}  // namespace
}  // namespace samelight
