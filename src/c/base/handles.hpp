#pragma once
// What stands behind the handles of the C interface: values of the library.
#include <cstddef>
#include <string>

#include "samelight/assess/white_request.hpp"
#include "samelight/c/samelight.h"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/report/check/check_answer.hpp"
#include "samelight/report/white_answer.hpp"

struct samelight_text {
    std::string value;
};

struct samelight_observer {
    samelight::Observer value;
};

struct samelight_panel {
    samelight::assess::WhitePanel value;
};

struct samelight_reference {
    samelight::assess::WhiteReference value;
};

struct samelight_population {
    samelight::Population value;
    /// That what it is asked is divided over.
    std::size_t threads;
};

struct samelight_white_answer {
    samelight::report::WhiteAnswer value;
};

struct samelight_correction {
    samelight::StoredCorrection value;
};

struct samelight_check_answer {
    samelight::report::CheckAnswer value;
};
