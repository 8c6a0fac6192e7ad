#pragma once
// Many lights that are mixtures of a few: what a display shows, whatever it shows.
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {

/// m lights on one sampling, each a sum of multiples of the same k lights, its parts.
///
/// A display's colours have three to five parts (red, green, blue, a white emitter, black), so that an observer's responses to the
/// parts give those to all colours. Lights that have no such structure are their own parts.
class MixedLights {
  public:
    /// parts: n x k on `sampling`, any unit; amounts: k x m. Throws Error (shape) where these do not fit each other.
    MixedLights(const Sampling& sampling, const Eigen::Ref<const Eigen::MatrixXd>& parts,
                const Eigen::Ref<const Eigen::MatrixXd>& amounts)
        : MixedLights(sampling, parts) {
        if (amounts.rows() != parts.cols()) {
            throw Error(ErrorKind::shape, "MixedLights",
                        "amounts of " + std::to_string(amounts.rows()) + " parts",
                        "amounts of " + std::to_string(parts.cols()) + " parts");
        }
        const Eigen::MatrixXd dense = amounts;
        amounts_.assign(dense.data(), dense.data() + dense.size());
        lights_ = static_cast<std::size_t>(dense.cols());
        plain_ = false;
    }

    /// Lights as they are: n x m, each its own part. Throws Error (shape) for columns of another length than the sampling's.
    MixedLights(const Sampling& sampling, const Eigen::Ref<const Eigen::MatrixXd>& lights)
        : sampling_(sampling),
          part_count_(static_cast<std::size_t>(lights.cols())),
          lights_(part_count_),
          plain_(true) {
        if (lights.rows() != sampling.count()) {
            throw Error(ErrorKind::shape, "MixedLights",
                        "lights of " + std::to_string(lights.rows()) + " values",
                        std::to_string(sampling.count()) + " values, for " + sampling.describe());
        }
        const Eigen::MatrixXd dense = lights;
        parts_.assign(dense.data(), dense.data() + dense.size());
    }

    [[nodiscard]] const Sampling& sampling() const noexcept { return sampling_; }
    /// Lights, m.
    [[nodiscard]] std::size_t size() const noexcept { return lights_; }
    /// Parts, k.
    [[nodiscard]] std::size_t part_count() const noexcept { return part_count_; }
    /// True where every light is its own part.
    [[nodiscard]] bool plain() const noexcept { return plain_; }

    /// n x k. Valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Eigen::MatrixXd> parts() const {
        return {parts_.data(), sampling_.count(), static_cast<Eigen::Index>(part_count_)};
    }
    /// k x m, where the lights are not plain; 0 x 0 where they are. Valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Eigen::MatrixXd> amounts() const {
        const auto rows = static_cast<Eigen::Index>(plain_ ? 0 : part_count_);
        return {amounts_.data(), rows, static_cast<Eigen::Index>(plain_ ? 0 : lights_)};
    }
    /// The lights themselves, n x m.
    [[nodiscard]] Eigen::MatrixXd lights() const {
        return plain_ ? Eigen::MatrixXd(parts()) : Eigen::MatrixXd(parts() * amounts());
    }
    /// Some of the lights, in the order given, made of the same parts. Throws Error (domain) for an index that there isn't.
    [[nodiscard]] MixedLights chosen(const std::vector<std::size_t>& indices) const {
        const Eigen::Map<const Eigen::MatrixXd> from = plain_ ? parts() : amounts();
        Eigen::MatrixXd some(from.rows(), static_cast<Eigen::Index>(indices.size()));
        for (std::size_t j = 0; j < indices.size(); ++j) {
            if (indices[j] >= lights_) {
                throw Error(
                    ErrorKind::domain, "MixedLights::chosen",
                    "light " + std::to_string(indices[j]) + " of " + std::to_string(lights_),
                    "a light that there is, counted from 0");
            }
            some.col(static_cast<Eigen::Index>(j)) =
                from.col(static_cast<Eigen::Index>(indices[j]));
        }
        return plain_ ? MixedLights(sampling_, some) : MixedLights(sampling_, parts(), some);
    }

  private:
    Sampling sampling_;
    std::vector<double> parts_;
    std::vector<double> amounts_;
    std::size_t part_count_;
    std::size_t lights_;
    bool plain_;
};

}  // namespace samelight
