# The icons are drawings in assets/icons; the program carries them as a table of points made here.
add_executable(bake_icons tools/bake/icons.cpp engine/picture/geometry.cpp)
set_target_flags(bake_icons)
target_include_directories(bake_icons PRIVATE ${CMAKE_BINARY_DIR}/rooms/picture)
target_link_libraries(bake_icons PRIVATE pugixml::pugixml)

file(GLOB drawings CONFIGURE_DEPENDS ${CMAKE_SOURCE_DIR}/assets/icons/*.svg)
set(baked_icons ${CMAKE_BINARY_DIR}/baked/icons.cpp)
file(MAKE_DIRECTORY ${CMAKE_BINARY_DIR}/baked)
add_custom_command(OUTPUT ${baked_icons} COMMAND bake_icons ${baked_icons} ${drawings}
                   DEPENDS bake_icons ${drawings} VERBATIM)
target_sources(picture PRIVATE ${baked_icons})
