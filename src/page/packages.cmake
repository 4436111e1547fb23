# The browser build's packages. Header-only ones lie in /usr/include beside a C library that is not the browser's, so each gets a
# folder of its own in the build tree; what is not wanted there (option parsing, threads) is left out.
set(overlay ${CMAKE_BINARY_DIR}/overlay)

function(foretone_headers target name)
  find_path(FORETONE_${name}_FOLDER ${name} PATHS ${ARGN} /usr/include /usr/local/include /opt/homebrew/include
    NO_CMAKE_FIND_ROOT_PATH NO_DEFAULT_PATH DOC "Folder that holds ${name}")
  if(NOT FORETONE_${name}_FOLDER)
    message(FATAL_ERROR "the headers of ${name} were not found; pass -DFORETONE_${name}_FOLDER=/its/folder")
  endif()
  string(MAKE_C_IDENTIFIER "${name}" word)
  file(MAKE_DIRECTORY ${overlay}/${word})
  file(CREATE_LINK ${FORETONE_${name}_FOLDER}/${name} ${overlay}/${word}/${name} SYMBOLIC)
  add_library(${target} INTERFACE IMPORTED GLOBAL)
  set_target_properties(${target} PROPERTIES INTERFACE_SYSTEM_INCLUDE_DIRECTORIES ${overlay}/${word}
    INTERFACE_INCLUDE_DIRECTORIES ${overlay}/${word})
endfunction()
foretone_headers(fmt::fmt fmt)
set_target_properties(fmt::fmt PROPERTIES INTERFACE_COMPILE_DEFINITIONS FMT_HEADER_ONLY)
foretone_headers(FastFloat::fast_float fast_float)
foretone_headers(glm::glm glm)
foretone_headers(nlohmann_json::nlohmann_json nlohmann)
foretone_headers(tomlplusplus::tomlplusplus toml++)
foretone_headers(Eigen3::Eigen Eigen /usr/include/eigen3)
file(CREATE_LINK ${FORETONE_Eigen_FOLDER}/unsupported ${overlay}/Eigen/unsupported SYMBOLIC)
add_library(Threads::Threads INTERFACE IMPORTED GLOBAL)

# One set of flags for everything: the browser's own exceptions, and two doubles at a time.
add_compile_options(-fwasm-exceptions -msimd128 "SHELL:-include ${CMAKE_CURRENT_LIST_DIR}/library_gaps.hpp")
add_link_options(-fwasm-exceptions -msimd128)
