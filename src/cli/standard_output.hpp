#pragma once
/// Standard output that tells whether all of it was written.

#include <iostream>
#include <streambuf>
#include <string>
#include <vector>

namespace foretone::cli {

/// Stands behind std::cout as long as it lives, and remembers the first thing that went wrong. A closed pipe is a fault
/// like a full disk, not a signal that ends the run; a closed standard stream is never taken by a file.
class StandardOutput : std::streambuf {
public:
    StandardOutput();
    ~StandardOutput() override;
    StandardOutput(const StandardOutput&) = delete;
    StandardOutput& operator=(const StandardOutput&) = delete;

    /// Writes what is left. Returns what went wrong, in words; empty if all of it was written.
    std::string finish();

private:
    int_type overflow(int_type c) override;
    int sync() override;
    void write_out();

    std::vector<char> held_;
    std::streambuf* before_;
    int error_ = 0;
};

}  // namespace foretone::cli
