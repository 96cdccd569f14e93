# One test a room: its doors lead upstream and nowhere else. Takes one header of each room as the sample.
set(upstream_first base procedure timing drill scoring study records picture stage)

function(sample_header room result)
  file(GLOB headers CONFIGURE_DEPENDS RELATIVE ${CMAKE_SOURCE_DIR}/engine ${CMAKE_SOURCE_DIR}/engine/${room}/*.hpp)
  list(SORT headers)
  list(SUBLIST headers 0 1 first)
  set(${result} "${first}" PARENT_SCOPE)
endfunction()

foreach(room IN LISTS upstream_first)
  sample_header(${room} header_of_${room})
endforeach()

foreach(room IN LISTS upstream_first)
  set(open "")
  set(shut "")
  set(side open)
  foreach(other IN LISTS upstream_first)
    list(APPEND ${side} ${header_of_${other}})
    if(other STREQUAL room)
      set(side shut)
    endif()
  endforeach()
  if(TARGET ${room} AND header_of_${room})
    get_target_property(kind ${room} TYPE)
    if(kind STREQUAL STATIC_LIBRARY)  # a room of headers only is compiled with nothing
      add_test(NAME Doors.${room} COMMAND ${CMAKE_COMMAND}
        -DCOMPILER=${CMAKE_CXX_COMPILER} -DROOM=${room} -DSCRATCH=${CMAKE_CURRENT_BINARY_DIR}
        "-DINCLUDES=$<TARGET_PROPERTY:${room},INCLUDE_DIRECTORIES>"
        "-DOPEN=${open}" "-DSHUT=${shut}" -P ${CMAKE_CURRENT_LIST_DIR}/doors.cmake)
    endif()
  endif()
endforeach()
