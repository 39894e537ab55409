# The files of data/, the example gardens and the built app inside the program:
# `embedded_file("trees.toml")`, `find_embedded("examples/ker-avel.toml")`, `find_embedded("app/index.html")`.
enable_language(ASM)
file(GLOB embedded_data CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/data/*.toml ${CMAKE_SOURCE_DIR}/data/*.csv
     ${CMAKE_SOURCE_DIR}/data/fonts/*.woff2 ${CMAKE_SOURCE_DIR}/data/fonts/*.ttf)
file(GLOB embedded_examples CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/examples/*.toml)
file(GLOB_RECURSE embedded_app CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/web/dist/*)
set(generated ${CMAKE_BINARY_DIR}/generated)
set(assembly ".section .note.GNU-stack,\"\",@progbits\n.section .rodata\n")
set(rows "")
set(externs "")
set(n 0)
foreach(path ${embedded_data} ${embedded_examples} ${embedded_app})
  if(path IN_LIST embedded_app)
    file(RELATIVE_PATH name ${CMAKE_SOURCE_DIR}/web/dist ${path})
    set(name "app/${name}")
  else()
    get_filename_component(name ${path} NAME)
    if(path IN_LIST embedded_examples)
      set(name "examples/${name}")
    endif()
  endif()
  string(APPEND assembly ".global spadework_begin_${n}\n.global spadework_end_${n}\n.balign 16\nspadework_begin_${n}:\n.incbin \"${path}\"\nspadework_end_${n}:\n.byte 0\n")
  string(APPEND externs "extern \"C\" const char spadework_begin_${n}[], spadework_end_${n}[];\n")
  string(APPEND rows "    {\"${name}\", spadework_begin_${n}, spadework_end_${n}},\n")
  math(EXPR n "${n} + 1")
endforeach()
file(CONFIGURE OUTPUT ${generated}/embedded.S CONTENT "${assembly}" @ONLY)
file(CONFIGURE OUTPUT ${generated}/embedded/embedded.h CONTENT "// Made by cmake/embed.cmake.
#pragma once
#include <optional>
#include <string_view>
#include <vector>
namespace spadework {
/// The bytes of a file inside, or nothing.
std::optional<std::string_view> find_embedded(std::string_view name);
/// The names of the files inside that begin so, in order.
std::vector<std::string_view> embedded_names(std::string_view beginning);
/// The bytes of a file of data/ by its name; stops the program if it is not inside.
std::string_view embedded_file(std::string_view name);
}
" @ONLY)
file(CONFIGURE OUTPUT ${generated}/embedded.cpp CONTENT "// Made by cmake/embed.cmake.
#include \"embedded/embedded.h\"
#include <cstdio>
#include <cstdlib>
${externs}
namespace spadework {
namespace {
struct Row { const char* name; const char* begin; const char* end; };
const Row kRows[] = {
${rows}};
}
std::optional<std::string_view> find_embedded(std::string_view name) {
  for (const Row& row : kRows)
    if (name == row.name) return std::string_view(row.begin, static_cast<std::size_t>(row.end - row.begin));
  return std::nullopt;
}
std::vector<std::string_view> embedded_names(std::string_view beginning) {
  std::vector<std::string_view> names;
  for (const Row& row : kRows)
    if (std::string_view(row.name).substr(0, beginning.size()) == beginning) names.push_back(row.name);
  return names;
}
std::string_view embedded_file(std::string_view name) {
  if (const auto bytes = find_embedded(name)) return *bytes;
  std::fprintf(stderr, \"spadework: no file %.*s inside\\n\", static_cast<int>(name.size()), name.data());
  std::abort();
}
}
" @ONLY)
add_library(room_embedded STATIC ${generated}/embedded.cpp ${generated}/embedded.S)
target_include_directories(room_embedded PUBLIC ${generated})
set_property(SOURCE ${generated}/embedded.S APPEND PROPERTY OBJECT_DEPENDS "${embedded_data};${embedded_examples};${embedded_app}")
