# cmake -DCOMPILER=... -DROOM=... -DINCLUDES="dir;dir" -DOPEN="base/a.hpp;..." -DSHUT="stage/b.hpp;..." -P doors.cmake
#
# With the include folders that a room is compiled with, every header in OPEN must be found and compile, and
# none in SHUT may be found.
list(REMOVE_ITEM INCLUDES /usr/include)  # always looked in, and last
list(REMOVE_DUPLICATES INCLUDES)
list(TRANSFORM INCLUDES PREPEND -I)

function(compile headers)
  list(TRANSFORM headers REPLACE "(.+)" "#include \"\\1\"\n")
  list(JOIN headers "" source)
  file(WRITE ${SCRATCH}/${ROOM}.cpp "${source}")
  execute_process(COMMAND ${COMPILER} -std=c++20 -fsyntax-only ${INCLUDES} ${SCRATCH}/${ROOM}.cpp
    RESULT_VARIABLE status ERROR_VARIABLE errors)
  set(status "${status}" PARENT_SCOPE)
  set(errors "${errors}" PARENT_SCOPE)
endfunction()

compile("${OPEN}")
if(NOT status EQUAL 0)
  message(SEND_ERROR "${ROOM} should see each of ${OPEN}:\n${errors}")
endif()

foreach(header IN LISTS SHUT)
  compile(${header})
  if(status EQUAL 0)
    message(SEND_ERROR "${ROOM} can include ${header}, which lies downstream of it")
  elseif(NOT errors MATCHES "${header}.*(No such file|not found)")
    message(SEND_ERROR "${ROOM} does not see ${header}, but for another reason:\n${errors}")
  endif()
endforeach()
