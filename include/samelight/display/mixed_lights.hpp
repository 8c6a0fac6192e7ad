#pragma once
// Many lights that are mixtures of a few: what a display shows, whatever it shows.
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// m lights on one sampling, each a sum of multiples of the same k lights, its parts.
///
/// A display's colours have three to five parts (red, green, blue, a white emitter, black), so that an observer's responses to the
/// parts give those to all colours. Lights that have no such structure are their own parts.
class SAMELIGHT_API MixedLights {
  public:
    /// parts: n x k on `sampling`, any unit; amounts: k x m. Throws Error (shape) where these do not fit each other.
    MixedLights(const Sampling& sampling, const Eigen::Ref<const Eigen::MatrixXd>& parts,
                const Eigen::Ref<const Eigen::MatrixXd>& amounts);

    /// Lights as they are: n x m, each its own part. Throws Error (shape) for columns of another length than the sampling's.
    MixedLights(const Sampling& sampling, const Eigen::Ref<const Eigen::MatrixXd>& lights);

    /// The sampling of all these lights.
    [[nodiscard]] const Sampling& sampling() const noexcept { return sampling_; }
    /// Lights, m.
    [[nodiscard]] std::size_t size() const noexcept { return lights_; }
    /// Parts, k.
    [[nodiscard]] std::size_t part_count() const noexcept { return part_count_; }
    /// True where every light is its own part.
    [[nodiscard]] bool plain() const noexcept { return plain_; }

    /// n x k. Valid as long as this object is.
    [[nodiscard]] Eigen::MatrixXd parts() const&& {
        return static_cast<const MixedLights&>(*this).parts();
    }
    [[nodiscard]] Eigen::Map<const Eigen::MatrixXd> parts() const&;
    /// k x m, where the lights are not plain; 0 x 0 where they are. Valid as long as this object is.
    [[nodiscard]] Eigen::MatrixXd amounts() const&& {
        return static_cast<const MixedLights&>(*this).amounts();
    }
    [[nodiscard]] Eigen::Map<const Eigen::MatrixXd> amounts() const&;
    /// The lights themselves, n x m.
    [[nodiscard]] Eigen::MatrixXd lights() const;
    /// Some of the lights, in the order given, made of the same parts. Throws Error (domain) for an index that there isn't.
    [[nodiscard]] MixedLights chosen(const std::vector<std::size_t>& indices) const;

  private:
    Sampling sampling_;
    std::vector<double> parts_;
    std::vector<double> amounts_;
    std::size_t part_count_;
    std::size_t lights_;
    bool plain_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/mixed_lights.ipp"
#endif
