#include "joint_table.hpp"

#include <algorithm>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"

namespace foretone::scene {
namespace {
using appearance::JointFigure;
using appearance::JointTable;

constexpr int joint_version = 1;
constexpr std::size_t most_figures = 400;

// As the checksum takes them.
constexpr int significant_digits = 6;

std::string joint_number(double v) { return base::toml_float(v, significant_digits); }

template <class List>
std::string list_text(const List& list) {
    std::string out = "[";
    std::size_t i = 0;
    for (const double v : list) {
        out += (i == 0 ? "" : ",");
        out += i > 0 && i % 12 == 0 ? "\n    " : i > 0 ? " " : "";
        out += joint_number(v);
        ++i;
    }
    return out + "]";
}

bool read_figure_row(const Keys& row, std::size_t number, JointTable& out) {
    row.only({"material", "figure", "acts", "value", "shape", "row"});
    JointFigure f;
    const auto material = row.text("material"), figure = row.text("figure");
    const auto acts = row.choice("acts", {"value", "logarithm", "body"});
    const auto value = row.number("value", -1e9, 1e9);
    const auto factor = row.numbers("row");
    if (!material || !figure || !acts || !value || !factor) {
        row.fault("joint-incomplete", row.here(), "a [[joint.figure]] needs material, figure, acts, value and row");
        return false;
    }
    f.material = *material;
    f.figure = *figure;
    f.value = *value;
    f.acts = *acts == "value"  ? JointFigure::Acts::value
             : *acts == "body" ? JointFigure::Acts::body
                               : JointFigure::Acts::logarithm;
    if (factor->size() != number + 1) {
        row.fault("joint-row", row.place_of("row"),
                  "row " + std::to_string(number + 1) + " of the factor has " + std::to_string(factor->size()) +
                      " numbers, not " + std::to_string(number + 1) + ": it is lower-triangular");
        return false;
    }
    if (row.has("shape")) {
        const auto shape = row.numbers("shape");
        if (!shape || shape->size() != spectral::grid_size) {
            row.fault("joint-shape", row.place_of("shape"),
                      "a shape has " + std::to_string(spectral::grid_size) + " numbers, 380 to 780 nm by 5 nm");
            return false;
        }
        std::copy(shape->begin(), shape->end(), f.shape.begin());
        f.shape_number = 1;
        for (const auto& before : out.figures)
            if (before.material == f.material && before.figure == f.figure) ++f.shape_number;
    }
    out.figures.push_back(std::move(f));
    out.factor.push_back(*factor);
    return true;
}

}  // namespace

std::optional<JointTable> read_joint(const Keys& joint, const std::function<void(Problem)>& warn) {
    joint.only({"version", "title", "checksum", "another_board_dE", "figure"});
    const auto number = joint.integer("version", 1, 1'000'000);
    if (!number || *number != joint_version) {
        warn(
            {"joint-version", joint.here(),
             "[joint] is of a version that this program does not know (it knows 1); each figure stands by its own sd"});
        return std::nullopt;
    }
    JointTable out;
    out.title = joint.text("title").value_or("");
    if (const auto* table = joint.sub("another_board_dE")) {
        const Keys keys(*table, joint.file(), "[joint.another_board_dE]", joint.problems());
        for (const auto& [key, node] : *table)
            if (const auto de = keys.number(key.str(), 0, 50, "dE"))
                out.another_board_de.emplace_back(std::string(key.str()), *de);
    }
    const auto* list = joint.table()["figure"].as_array();
    if (!list || list->empty() || list->size() > most_figures) {
        joint.fault("joint-empty", joint.here(),
                    "[joint] needs 1 to " + std::to_string(most_figures) + " [[joint.figure]]");
        return std::nullopt;
    }
    for (std::size_t i = 0; i < list->size(); ++i) {
        const auto* row = (*list)[i].as_table();
        if (!row || !read_figure_row(Keys(*row, joint.file(), "[[joint.figure]]", joint.problems()), i, out))
            return std::nullopt;
    }
    const auto stated = joint.text("checksum").value_or("");
    if (stated != appearance::checksum(out)) {
        warn({"joint-checksum", joint.has("checksum") ? joint.place_of("checksum") : joint.here(),
              "the numbers of [joint] are not those that were fitted (checksum " + appearance::checksum(out) +
                  ", not \"" + stated.substr(0, 40) +
                  "\"): the table is left aside, each figure stands by its own sd"});
        return std::nullopt;
    }
    return out;
}

std::string joint_toml(const JointTable& table, const std::function<std::string(const std::string&)>& written_as) {
    if (table.figures.empty()) return "";
    JointTable named = table;
    for (auto& f : named.figures) f.material = written_as(f.material);
    for (auto& [wood, de] : named.another_board_de) wood = written_as(wood);
    std::sort(named.another_board_de.begin(), named.another_board_de.end());
    std::string out =
        "\n# How far the figures above may still be off, all together: with z independent standard normal, a figure "
        "lies "
        "the sum of\n# row[k] z[k] from its value (acts = \"value\"), its logarithm does (\"logarithm\"), or ln(K/S) "
        "of "
        "a reflectance does, along\n# the shape (\"body\"; shapes: 380 to 780 nm by 5 nm). A scene that uses these "
        "materials uses it whole; a figure that is edited\n# above drops out of it.\n[joint]\nversion = " +
        std::to_string(joint_version) + "\ntitle = " + base::toml_quoted(named.title) + "\nchecksum = \"" +
        appearance::checksum(named) + "\"\n";
    if (!named.another_board_de.empty()) {
        out += "\n[joint.another_board_dE]\n";
        for (const auto& [wood, de] : named.another_board_de) out += wood + " = " + joint_number(de) + "\n";
    }
    for (std::size_t i = 0; i < named.figures.size(); ++i) {
        const auto& f = named.figures[i];
        out += "\n[[joint.figure]]\nmaterial = \"" + f.material + "\"\nfigure = \"" + f.figure + "\"\nacts = \"" +
               std::string(word(f.acts)) + "\"\nvalue = " + joint_number(f.value) + "\n";
        if (f.shape_number > 0) out += "shape = " + list_text(f.shape.values) + "\n";
        out += "row = " + list_text(named.factor[i]) + "\n";
    }
    return out;
}

}  // namespace foretone::scene
