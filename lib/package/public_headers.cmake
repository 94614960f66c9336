# What the library promises to whoever uses it: these headers, and what they show. They are installed, with the headers that
# they include themselves; all others are inner ones, may change with any version, and are not installed.
set(promised_headers
    voltwright/voltwright.hpp
    # quantities and texts
    voltwright/units/gauge.hpp
    voltwright/units/literals.hpp
    voltwright/units/parse.hpp
    voltwright/units/quantities.hpp
    voltwright/units/result.hpp
    voltwright/units/show.hpp
    # the tables
    voltwright/tables/tables.hpp
    # physics and one cable
    voltwright/circuit/conductor.hpp
    voltwright/circuit/fault.hpp
    voltwright/circuit/fuse_time.hpp
    voltwright/circuit/network.hpp
    voltwright/circuit/run.hpp
    voltwright/circuit/withstand.hpp
    voltwright/energy/charger.hpp
    voltwright/energy/fridge.hpp
    voltwright/energy/sun.hpp
    voltwright/energy/weather.hpp
    voltwright/sizing/ampacity.hpp
    voltwright/sizing/choice.hpp
    voltwright/sizing/fuse.hpp
    # a vehicle
    voltwright/profile/profile.hpp
    voltwright/vehicle/resolve.hpp
    # its trip
    voltwright/simulation/build_scenario.hpp
    voltwright/simulation/simulate.hpp
    # its plan, and a changed one
    voltwright/planning/plan.hpp
    voltwright/planning/replan.hpp
    # what is bought, and what a meter says
    voltwright/diagnosis/diagnose.hpp
    voltwright/diagnosis/test_plan.hpp
    voltwright/shopping/parts.hpp
    # files
    voltwright/files/load.hpp
    voltwright/files/read_prices.hpp
    # pages and JSON
    voltwright/report/diagnostics.hpp
    voltwright/report/plan_json.hpp
    voltwright/report/plan_text.hpp
    voltwright/report/sheet.hpp)

# Sets `result` to the promised headers and all that these include of ours.
function(list_installed_headers result)
    set(waiting ${promised_headers})
    set(installed)
    while(waiting)
        list(POP_FRONT waiting header)
        if(header IN_LIST installed)
            continue()
        endif()
        list(APPEND installed ${header})
        file(STRINGS ${PROJECT_SOURCE_DIR}/lib/${header} lines REGEX "^#include \"voltwright/")
        list(TRANSFORM lines REPLACE "^#include \"([^\"]+)\".*" "\\1")
        list(APPEND waiting ${lines})
    endwhile()
    set(${result} ${installed} PARENT_SCOPE)
endfunction()
