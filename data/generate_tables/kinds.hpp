#pragma once

#include <map>
#include <string_view>
#include <vector>

/// The kinds of tables: which struct a table's rows become, and where each member comes from. A new kind is an entry in
/// kinds_wiring.cpp, kinds_energy.cpp, kinds_fitting.cpp or kinds_practice.cpp, and a span in kinds.cpp; the same stands in
/// shared/table.schema.json, for editors.
namespace voltwright::generate_tables {

enum class Holds {
    text,
    gauge,  // a conductor's size
    count,  // a whole number from 1
    yes_no,
    one_of,  // of the enumerators of the C++ type that `dimension` names
    quantity,
    source,      // of the row
    its_source,  // of the constant of the same key
    class_,      // the temperature that a class column is named by
    class_cell,  // the figure in that column
};

enum class Where { column, optional_column, constant };
enum class Range {
    positive,
    zero_too,
    negative_too,
    beyond_one,  // positive, and a ratio that is no share: a factor or an exponent
};

/// One member of a row's struct.
struct Member {
    std::string_view name;
    Holds holds = Holds::quantity;
    std::string_view dimension = {};  // the C++ type of a quantity or of an enumeration
    Where where = Where::column;
    Range range = Range::positive;
    std::string_view key = {};  // what the table calls it, where that differs
    bool printed = true;        // on the page of the table; what is there for the program alone is not

    [[nodiscard]] std::string_view called() const { return key.empty() ? name : key; }
    [[nodiscard]] bool in_columns() const {
        return where != Where::constant && holds != Holds::source && holds != Holds::class_ &&
               holds != Holds::class_cell;
    }
};

Member column(std::string_view name, std::string_view dimension, Range range = Range::positive);
Member column(std::string_view name, Holds holds);
Member one_of(std::string_view enumeration, std::string_view name);
Member optional(Member member);
Member constant(Member member);
Member unprinted(Member member);
/// A member whose column has another name.
Member called(std::string_view key, Member member);
/// The source of a row.
Member source();

using Names = std::vector<std::string_view>;

struct Kind {
    std::string_view row;         // the struct
    std::string_view span;        // the member of Tables
    std::vector<Member> members;  // in the order of the struct
    Names unique;                 // members that together name a row
    Names rising = {};            // from row to row of a table
    Names falling = {};
    std::string_view within = {};                  // rising and falling count among rows that share this member
    std::vector<Names> ordered = {};               // members of one row, each not below the one before
    std::string_view refers = {}, refers_to = {};  // a member that must be a name of another kind's rows
    bool by_class = false;                         // columns named by a temperature: one row a cell
};

using Kinds = std::map<std::string_view, Kind>;

Kinds wiring_kinds();
Kinds energy_kinds();
Kinds fitting_kinds();
Kinds practice_kinds();

/// All of them.
const Kinds& kinds();

/// The members of Tables, in the order of the struct.
const Names& spans();

}  // namespace voltwright::generate_tables
