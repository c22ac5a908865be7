#include "standing/kept_inputs.h"

#include "base/checksum.h"
#include "standing/reckoning.gen.h"

namespace service {

std::uint64_t inputs_of(const Fleet& fleet) {
  Checksum sum;
  sum.add(*fleet.files_checksum);
  sum.add(reckoning);
  return sum.value();
}

}  // namespace service
