#pragma once
// Spectral files as instruments and people write them, drawn from a seed, with what they hold and whether they can be read.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <string>
#include <vector>

#include "numeric/test_random.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io::test {

enum class Form { display, numbered, generic, single };
enum class Encoding { utf8, utf8_marked, utf16_little, utf16_big, latin1 };

/// The words of one language: the wavelengths' heading, then red, green, blue, white, black.
struct Words {
    const char* wavelength;
    std::array<const char*, 5> lights;
    bool latin1;  ///< whether Latin-1 has its letters
};

inline const std::vector<Words>& languages_written() {
    static const std::vector<Words> words = {
        {"wavelength_nm", {"red", "green", "blue", "white", "black"}, true},
        {"nm", {"R", "G", "B", "W", "K"}, true},
        {"Wellenlänge [nm]", {"Rot", "Grün", "Blau", "Weiß", "Schwarz"}, true},
        {"Longueur d'onde", {"Rouge", "VERT", "bleu", "Blanc", "Noir"}, true},
        {"Longitud de onda (nm)", {"rojo", "verde", "azul", "blanco", "negro"}, true},
        {"Lunghezza d’onda", {"Rosso", "Verde", "Blu", "Bianco", "Nero"}, false},
        {"Golflengte", {"rood", "groen", "blauw", "wit", "zwart"}, true},
        {"波長 [nm]", {"赤", "緑", "青", "白", "黒"}, false},
        {"波长", {"红", "绿", "蓝", "白", "黑"}, false}};
    return words;
}

/// How a file is written.
struct Dress {
    Form form = Form::display;
    std::size_t language = 0;
    Encoding encoding = Encoding::utf8;
    char delimiter = ',';
    char mark = '.';
    bool across = false, descending = false, trailing = false, quotes = false, exponents = false;
    bool comments = false, blank_lines = false, repeats = false, crlf = false, noise = false;
    bool thousands = false, ragged = false, short_range = false, uneven = false;
    int headings = 0;    ///< lines above the table
    int step_nm = 5;     ///< of even wavelengths
    int unit_power = 0;  ///< 0 W, -3 mW, -6 uW per sr m2 nm; 1: none stated
    int digits = 6;      ///< behind the decimal mark, or of the mantissa
    std::vector<std::size_t> order{0, 1, 2, 3, 4};  ///< of the columns: red is 0
};

/// A file, and what must come of it.
struct Written {
    std::string bytes;
    std::vector<LightChoice> choices;
    std::string refusal;  ///< a part of the error's text; empty: it can be read
    std::vector<double> nm;
    std::vector<std::vector<double>>
        lights;  ///< red to black, in W/(sr m2 nm) or as they stand; empty: not in the file
};

namespace written {

inline std::string utf16(const std::string& text, bool little) {
    std::string bytes = little ? "\xff\xfe" : "\xfe\xff";
    for (std::size_t i = 0; i < text.size();) {
        const auto byte = [&](std::size_t k) {
            return static_cast<unsigned>(static_cast<unsigned char>(text[i + k]));
        };
        const std::size_t length = byte(0) < 0x80 ? 1 : byte(0) < 0xe0 ? 2 : 3;
        const unsigned code =
            length == 1   ? byte(0)
            : length == 2 ? (byte(0) & 31U) << 6U | (byte(1) & 63U)
                          : (byte(0) & 15U) << 12U | (byte(1) & 63U) << 6U | (byte(2) & 63U);
        const char low = static_cast<char>(code & 0xffU);
        const char high = static_cast<char>(code >> 8U);
        bytes += little ? low : high;
        bytes += little ? high : low;
        i += length;
    }
    return bytes;
}

inline std::string latin1(const std::string& text) {
    std::string bytes;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned>(static_cast<unsigned char>(text[i]));
        if (byte < 0x80) {
            bytes += text[i];
        } else {
            const auto next = static_cast<unsigned>(static_cast<unsigned char>(text[++i]));
            bytes += static_cast<char>((byte & 3U) << 6U | (next & 63U));
        }
    }
    return bytes;
}

/// An invented light: red, green and blue bands, their sum, a thousandth of that.
inline double light(std::size_t which, double nm) {
    const auto band = [nm](double centre, double width) {
        const double t = (nm - centre) / width;
        return std::exp(-0.5 * t * t);
    };
    const std::array<double, 3> bands{0.021 * band(625.0, 14.0), 0.034 * band(532.0, 18.0),
                                      0.028 * band(456.0, 11.0)};
    if (which < 3) return bands[which] + 2e-6;
    const double sum = bands[0] + bands[1] + bands[2] + 6e-6;
    return which == 3 ? sum : 1e-3 * sum;
}

/// Writes one file cell by cell, and keeps what the digits say.
class Writer {
  public:
    Writer(Dress dress, samelight::test::Random& random)
        : dress_(std::move(dress)), random_(random) {}

    Written write() {
        choose_wavelengths();
        std::vector<std::vector<std::string>> columns = make_columns();
        std::string text = above() + table(columns);
        if (dress_.blank_lines) text += end() + end();
        result_.bytes = encoded(text);
        predict();
        return std::move(result_);
    }

  private:
    void choose_wavelengths() {
        const double first = dress_.short_range ? 410.0 : 380.0;
        const double last = dress_.short_range ? 690.0 : 780.0;
        for (double nm = first; nm <= last; nm += dress_.step_nm) {
            const bool between = dress_.uneven && result_.nm.size() % 3 == 1;
            result_.nm.push_back(between ? nm + 0.5 : nm);
        }
    }

    /// A number as it stands in the file, and its value there.
    std::string number(double value, double& read) {
        std::string text;
        if (dress_.exponents) {
            int power =
                value == 0.0 ? 0 : static_cast<int>(std::floor(std::log10(std::abs(value))));
            text = to_text(value / std::pow(10.0, power), dress_.digits) + "E" +
                   (power < 0 ? "-" : "+") + (std::abs(power) < 10 ? "0" : "") +
                   std::to_string(std::abs(power));
        } else {
            text = to_text(value, dress_.digits);
        }
        read = std::strtod(text.c_str(), nullptr);
        if (dress_.thousands && std::abs(value) >= 1000.0) {
            const std::size_t point = std::min(text.find('.'), text.size());
            text.insert(point - 3, dress_.mark == '.' ? "'" : " ");
        }
        const std::size_t point = text.find('.');
        if (point != std::string::npos) text[point] = dress_.mark;
        return dress_.quotes || (dress_.mark == dress_.delimiter && dress_.quotes)
                   ? '"' + text + '"'
                   : text;
    }

    [[nodiscard]] const Words& words() const { return languages_written()[dress_.language]; }

    [[nodiscard]] std::string name(std::size_t place) const {
        const std::size_t which = dress_.order[place];
        switch (dress_.form) {
            case Form::numbered:
                return "Measurement " + std::to_string(place + 1);
            case Form::generic:
                return "Radiance";
            case Form::single:
                return "Sample";
            case Form::display:
                break;
        }
        return words().lights[which];
    }

    /// Names, then values, column by column; the first column holds the wavelengths.
    std::vector<std::vector<std::string>> make_columns() {
        std::vector<std::vector<std::string>> columns{{words().wavelength}};
        for (const double nm : result_.nm) {
            std::string text = to_text(nm);
            if (const std::size_t point = text.find('.'); point != std::string::npos) {
                text[point] = dress_.mark;
            }
            columns.front().push_back(dress_.quotes ? '"' + text + '"' : text);
        }
        result_.lights.resize(5);
        const std::size_t count = dress_.form == Form::single ? 1 : dress_.order.size();
        for (std::size_t place = 0; place < count; ++place) {
            add_light(place, columns);
            choose(place);
        }
        return columns;
    }

    void add_light(std::size_t place, std::vector<std::vector<std::string>>& columns) {
        const std::size_t which = dress_.order[place];
        const std::size_t times = dress_.repeats && which < 4 ? 2 : 1;
        std::vector<double>& wanted = result_.lights[which];
        wanted.assign(result_.nm.size(), 0.0);
        for (std::size_t repeat = 0; repeat < times; ++repeat) {
            const std::string suffix = times == 1      ? ""
                                       : dress_.across ? " (" + std::to_string(repeat + 1) + ")"
                                                       : " " + std::to_string(repeat + 1);
            columns.push_back({name(place) + suffix});
            for (std::size_t i = 0; i < result_.nm.size(); ++i) {
                double read = 0.0;
                const std::string cell = number(value(which, i, repeat), read);
                const bool missing = dress_.ragged && which == 2 && result_.nm[i] > 730.0;
                columns.back().push_back(missing ? "" : cell);
                wanted[i] += read / static_cast<double>(times);
            }
        }
        if (dress_.unit_power < 0) {
            for (double& one : wanted) {
                one *= std::pow(10.0, dress_.unit_power);
            }
        }
    }

    /// What is written down, in the file's unit.
    double value(std::size_t which, std::size_t i, std::size_t repeat) {
        double result = light(which, result_.nm[i]) * (repeat == 1 ? 1.004 : 1.0);
        if (dress_.noise) result += 0.0005 * random_.normal();
        const double unit = dress_.unit_power < 0 ? std::pow(10.0, -dress_.unit_power) : 1.0;
        return (dress_.thousands ? 1e6 : 1.0) * unit * result;
    }

    void choose(std::size_t place) {
        constexpr std::array<const char*, 5> roles{"red", "green", "blue", "white", "black"};
        const std::string role = roles[dress_.order[place]];
        if (dress_.form == Form::single) result_.choices.push_back({role});
        if (dress_.form == Form::numbered || dress_.form == Form::generic) {
            result_.choices.push_back({role, std::to_string(place + 1)});
        }
    }

    [[nodiscard]] std::string end() const { return dress_.crlf ? "\r\n" : "\n"; }

    std::string above() {
        const std::string d(1, dress_.delimiter);
        std::string text;
        if (dress_.comments) text += "# invented, drawn from a seed" + end();
        const std::vector<std::string> lines{"Instrument" + d + "INVENTED",
                                             "Place" + d + "Lantern Room", "Operator" + d + "A",
                                             "Slit" + d + "4 nm"};
        for (int k = 0; k < dress_.headings; ++k) {
            text += lines[static_cast<std::size_t>(k)] + end();
            if (dress_.blank_lines) text += end();
        }
        if (dress_.unit_power <= 0) {
            const std::string prefix = dress_.unit_power == 0    ? ""
                                       : dress_.unit_power == -3 ? "m"
                                                                 : "u";
            text += (dress_.comments ? "# " : "Unit" + d) + prefix + "W/(sr m2 nm)" + end();
        }
        return text;
    }

    std::string table(const std::vector<std::vector<std::string>>& columns) const {
        const std::size_t rows = columns.front().size();
        std::vector<std::size_t> down{0};
        for (std::size_t i = 1; i < rows; ++i) {
            down.push_back(dress_.descending ? rows - i : i);
        }
        std::string text;
        const auto line = [&](const std::vector<std::string>& cells) {
            for (std::size_t k = 0; k < cells.size(); ++k) {
                text += (k > 0 ? std::string(1, dress_.delimiter) : "") + cells[k];
            }
            text += (dress_.trailing ? std::string(1, dress_.delimiter) : "") + end();
        };
        if (dress_.across) {
            for (const std::vector<std::string>& column : columns) {
                std::vector<std::string> cells;
                for (const std::size_t i : down) {
                    cells.push_back(column[i]);
                }
                line(cells);
            }
            return text;
        }
        for (const std::size_t i : down) {
            std::vector<std::string> cells;
            for (const std::vector<std::string>& column : columns) {
                cells.push_back(column[i]);
            }
            line(cells);
            if (dress_.blank_lines && i == rows / 2) text += end();
        }
        return text;
    }

    [[nodiscard]] std::string encoded(const std::string& text) const {
        switch (dress_.encoding) {
            case Encoding::utf8_marked:
                return "\xef\xbb\xbf" + text;
            case Encoding::utf16_little:
                return utf16(text, true);
            case Encoding::utf16_big:
                return utf16(text, false);
            case Encoding::latin1:
                return latin1(text);
            case Encoding::utf8:
                break;
        }
        return text;
    }

    /// What a reader that guesses nothing must refuse, the first that it meets.
    void predict() {
        if (dress_.thousands) {
            result_.refusal = dress_.across ? "\"" : "thousands";
        } else if (dress_.ragged) {
            result_.refusal = "no value for ";
        } else if (dress_.short_range) {
            result_.refusal = "at least 400-700 nm";
        }
    }

    Dress dress_;
    samelight::test::Random& random_;
    Written result_;
};

}  // namespace written

/// File number `k` of those that a seed gives: every feature comes up many times, in ever other company.
inline Dress drawn_dress(std::size_t k, samelight::test::Random& random) {
    const auto one_in = [&](int n) { return random.whole(1, n) == 1; };
    Dress dress;
    dress.language = k % languages_written().size();
    dress.form = static_cast<Form>(std::array<int, 8>{0, 0, 1, 0, 3, 0, 2, 0}[k % 8]);
    dress.delimiter = std::array<char, 3>{',', ';', '\t'}[k % 3];
    dress.quotes = one_in(5);
    dress.mark = dress.delimiter == ',' && !dress.quotes ? '.' : one_in(2) ? ',' : '.';
    dress.encoding = static_cast<Encoding>(random.whole(0, 4));
    if (dress.encoding == Encoding::latin1 && !languages_written()[dress.language].latin1) {
        dress.encoding = Encoding::utf16_little;
    }
    dress.across = one_in(3);
    dress.descending = one_in(3);
    dress.trailing = one_in(4);
    dress.exponents = one_in(2);
    dress.comments = one_in(2);
    dress.blank_lines = one_in(3);
    dress.crlf = one_in(2);
    dress.noise = one_in(4);
    dress.uneven = one_in(6);
    dress.repeats = dress.form == Form::display && one_in(4);
    dress.headings = random.whole(0, 4);
    dress.step_nm =
        std::array<int, 5>{1, 2, 4, 5, 10}[static_cast<std::size_t>(random.whole(0, 4))];
    dress.unit_power =
        std::array<int, 4>{0, -3, -6, 1}[static_cast<std::size_t>(random.whole(0, 3))];
    dress.digits = dress.exponents ? 5 : 8;
    if (k % 15 == 4) dress.short_range = true;
    if (k % 15 == 8 && dress.form == Form::display) dress.ragged = true;
    if (k % 15 == 12) {
        dress.thousands = true;
        dress.exponents = false;
        dress.unit_power = 1;
        dress.digits = 2;
    }
    for (std::size_t i = dress.order.size(); i > 1; --i) {
        std::swap(dress.order[i - 1],
                  dress.order[static_cast<std::size_t>(random.whole(0, static_cast<int>(i) - 1))]);
    }
    return dress;
}

}  // namespace samelight::io::test
