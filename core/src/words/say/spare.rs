//! What could be released.

use super::Speaker;
use crate::words::facts::Spare;
use crate::words::names::Case;

impl Speaker<'_> {
    pub(super) fn spare(&mut self, spare: &Spare) {
        if !spare.idle.is_empty() {
            let elements = self.elements(spare.idle, Case::Subject);
            self.add(self.say("idle", spare.idle.len(), &[("elements", &elements)]));
        }
        for only in &spare.only_for {
            let values = [
                ("element", &*self.element(only.element, Case::Subject)),
                ("what", if only.braking { "braking" } else { "coasting" }),
                ("instead", &self.elements(only.instead, Case::Subject)),
            ];
            self.add(self.say("only-for", only.instead.len(), &values));
        }
        for &(element, lets_go) in &spare.keeps_locked {
            let values = [
                ("element", &*self.element(element, Case::Object)),
                ("lets-go", &self.elements(lets_go, Case::Subject)),
            ];
            self.add(self.say("keeps-locked", lets_go.len(), &values));
        }
        if !spare.side_by_side.is_empty() {
            let elements = self.elements(spare.side_by_side, Case::Subject);
            self.add(self.say("side-by-side", 0, &[("elements", &elements)]));
        }
    }
}
