#include "samelight/io/quality_flags.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/quality_flags.hpp"

#include "io/layout/roles.hpp"

namespace samelight::io {

std::vector<Warning> quality_flags(const LightColumn& column) {
    return samelight::quality_flags(
        {column.name, column.light, detail::role_of(column.name) == "black"});
}

}  // namespace samelight::io
