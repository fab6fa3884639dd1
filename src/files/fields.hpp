// The two readers made of field tables.
#pragma once
#include "belay/fixings.hpp"
#include "files/field.hpp"
#include "job/raw.hpp"

namespace belay {

raw::Job read_job_keys(const Document&, std::vector<Problem>&);
raw::ClassTableKeys read_class_table_keys(const Document&, std::vector<Problem>&);
Fixings read_fixings_keys(const Document&, std::vector<Problem>&);

// The rows of a whole job, of a whole fixings file and of a table of classes: what the readers go by, and what a test
// compares README with.
std::span<const Field> job_rows();
std::span<const Field> fixings_rows();
std::span<const Field> class_table_rows();

}  // namespace belay
