#pragma once
/// The files that were handed to the page beside a scene, by name; what a scene refers to is looked up here and nowhere
/// else.

#include <map>
#include <string>

namespace foretone::page {

std::map<std::string, std::string>& held_files();

}  // namespace foretone::page
