#include "voltwright/planning/findings/find.hpp"
#include "voltwright/planning/findings/run_context.hpp"
#include "voltwright/planning/findings/sources.hpp"

namespace voltwright {

Findings find_in_bank(const std::optional<BankLinks>& bank) {
    if (!bank) return {};
    const FindingSubject about{FindingSubject::Kind::house_battery};
    const Candidate* taken = bank->to_lay();
    if (!taken)
        return {{.level = Level::stop,
                 .code = FindingCode::bank_links,
                 .about = about,
                 .found = bank->share,
                 .arguments = {{"count", bank->count}},
                 .source = sources::fuse_at_the_source}};
    const FuseFit& fuse = taken->fuses.front();
    if (fuse.fault.expected.current <= fuse.fault.breaking_capacity.value) return {};
    return {{.level = Level::stop,
             .code = FindingCode::breaking_capacity,
             .about = about,
             .found = fuse.fault.expected.current,
             .allowed = fuse.fault.breaking_capacity.value,
             .arguments = {{"fuse", named_fuse(fuse)}},
             .source = fuse.fault.breaking_capacity.source}};
}

}  // namespace voltwright
