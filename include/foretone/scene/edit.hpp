#pragma once
/// Changes to the text of a scene that leave everything else in it as it stands: comments, order, spacing, keys of all
/// kinds.

#include <cstddef>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace foretone::scene {

/// A value to be written: a text, a number, true or false, or a list of inline tables (the parts of a mix) or of texts
/// or numbers.
struct Written;
using WrittenTable = std::vector<std::pair<std::string, Written>>;
struct Written {
    std::variant<std::string, double, bool, std::vector<Written>, WrittenTable> value;
};

/// The value as TOML. Numbers are written in the shortest form that reads back the same.
std::string toml_text(const Written& value);

/// A scene's text, changed step by step. Every function throws InputError if the text is no TOML (`toml-syntax`) or if
/// the place asked for is not there or is written in a way that cannot be changed in place (`edit-place`, saying how to
/// write it).
class SceneText {
public:
    SceneText(std::string text, std::string file) : text_(std::move(text)), file_(std::move(file)) {}

    const std::string& text() const { return text_; }

    /// Keys at the top, of a table ("look", "wood", "target", ...; made if it is not there), of a finish or of a step.
    /// `remove` of a key that is not there does nothing.
    void set(const std::string& key, const Written& value);
    void set(const std::string& table, const std::string& key, const Written& value);
    void set(std::size_t finish, const std::string& key, const Written& value);
    void set(std::size_t finish, std::size_t step, const std::string& key, const Written& value);
    void remove(const std::string& key);
    void remove(std::size_t finish, const std::string& key);
    void remove(std::size_t finish, std::size_t step, const std::string& key);

    /// A key of one part of a step's mix.
    void set_part(std::size_t finish, std::size_t step, std::size_t part, const std::string& key, const Written& value);

    /// A table's keys, all of them; without any, the table is taken out.
    void replace(const std::string& table, const WrittenTable& keys);

    /// Steps, counted from the wood. `place` is the number the step will have.
    void add_step(std::size_t finish, std::size_t place, const WrittenTable& keys);
    void remove_step(std::size_t finish, std::size_t step);
    void move_step(std::size_t finish, std::size_t step, std::size_t place);

    /// A finish after all others; a copy of finish `like` under another name.
    void add_finish(const std::string& name, const std::vector<WrittenTable>& steps);
    void copy_finish(std::size_t like, const std::string& name);
    void remove_finish(std::size_t finish);

    /// The text of one finish with all its steps, and what is left without any finish.
    std::string finish_text(std::size_t finish) const;
    std::string without_finishes() const;

private:
    std::string text_, file_;
};

}  // namespace foretone::scene
