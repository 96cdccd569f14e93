# Helpers of the build: warnings, sanitizers, and the one way to add a room.

set(BEFOREHAND_SANITIZE "" CACHE STRING "Value for -fsanitize=, or empty")
option(BEFOREHAND_COVERAGE "Instrument for gcov" OFF)

function(set_target_flags target)
  target_compile_options(${target} PRIVATE
    -Wall -Wextra       # the usual mistakes
    -Wshadow            # a name that hides another is read wrongly sooner or later
    -Wconversion        # times and indexes must not be narrowed unseen
    -Wnon-virtual-dtor -Woverloaded-virtual
    -ffp-contract=off)  # the same figures from every compiler and at every level
  if(CMAKE_UNITY_BUILD AND CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    target_compile_options(${target} PRIVATE -Wno-subobject-linkage)  # it takes a joined file for a header
  endif()
  if(BEFOREHAND_SANITIZE)
    target_compile_options(${target} PRIVATE -fsanitize=${BEFOREHAND_SANITIZE} -fno-omit-frame-pointer)
    target_link_options(${target} PUBLIC -fsanitize=${BEFOREHAND_SANITIZE})
  endif()
  if(BEFOREHAND_COVERAGE)
    target_compile_options(${target} PRIVATE --coverage)
    target_link_options(${target} PUBLIC --coverage)
  endif()
endfunction()

# Builds that join files (CMAKE_UNITY_BUILD) leave alone what matches a pattern: files whose names are those of
# every file of their kind, such as the Ids of a screen's widgets, and one that sees the macros of X11.
function(compile_alone sources)
  foreach(pattern ${ARGN})
    set(matching ${sources})
    list(FILTER matching INCLUDE REGEX "${pattern}")
    set_source_files_properties(${matching} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
  endforeach()
endfunction()

# room(name ROOMS upstream... OUTSIDE libs... OUTSIDE_PRIVATE libs...)
# A room's headers are reached as "<name>/<file>.hpp" through a folder of its own that holds only a link to it,
# so an include of a room that is not upstream does not compile.
function(room name)
  cmake_parse_arguments(ARG "" "" "ROOMS;OUTSIDE;OUTSIDE_PRIVATE" ${ARGN})
  set(door ${CMAKE_BINARY_DIR}/rooms/${name})
  file(MAKE_DIRECTORY ${door})
  file(CREATE_LINK ${CMAKE_SOURCE_DIR}/engine/${name} ${door}/${name} SYMBOLIC)
  file(GLOB sources CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/engine/${name}/*.cpp)
  if(sources)
    add_library(${name} STATIC ${sources})
    compile_alone("${sources}" "_screen[.]cpp$" "/display[.]cpp$" "/widgets[.]cpp$" "/replay_moments[.]cpp$")
    set_target_flags(${name})
    set(reach PUBLIC)
  else()
    add_library(${name} INTERFACE)
    set(reach INTERFACE)
  endif()
  target_include_directories(${name} ${reach} ${door})
  target_link_libraries(${name} ${reach} ${ARG_ROOMS} ${ARG_OUTSIDE})
  if(ARG_OUTSIDE_PRIVATE AND sources)
    target_link_libraries(${name} PRIVATE ${ARG_OUTSIDE_PRIVATE})
  endif()
endfunction()
