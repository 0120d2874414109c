//! What fights, what would turn were it not held, and the way out.

use levertrain_exact::Fraction;

use super::{Speaker, pace_of, way_of};
use crate::base::number::number;
use crate::solve::fight::Fight;
use crate::train::Body;
use crate::words::facts::{Pace, TieUp, Would};
use crate::words::names::{Case, one_of};

impl Speaker<'_> {
    pub(crate) fn output_held(&self, fight: &Fight) -> String {
        let elements = self.elements(fight.elements, Case::Subject);
        let sets = |case| self.sets(&fight.couplings, case);
        let (count, holders) = if fight.elements.is_empty() {
            (fight.couplings.len(), sets(Case::Subject))
        } else if fight.couplings.is_empty() {
            (fight.elements.len(), elements)
        } else {
            let values = [("elements", &*elements), ("sets", &sets(Case::Dative))];
            (fight.elements.len(), self.say("held-with", 0, &values))
        };
        self.say("held", count, &[("holders", &holders)])
    }

    pub(crate) fn tied_up(&self, tie_up: &TieUp) -> String {
        let fight = &tie_up.fight;
        let sets = self.sets(&fight.couplings, Case::Object);
        if fight.elements.is_empty() {
            return self.say("tied-by-sets", 0, &[("sets", &sets)]);
        }
        let alone = fight.elements.len() == 1;
        let key = if alone { "holds-alone" } else { "fight" };
        let mut what = self.say(
            key,
            0,
            &[("elements", &self.elements(fight.elements, Case::Subject))],
        );
        if !fight.couplings.is_empty() {
            what = self.say("through", 0, &[("what", &what), ("sets", &sets)]);
        }
        if !alone {
            what = self.say("so-tied", 0, &[("what", &what)]);
        }
        let mut text = self.say("tied-by", 0, &[("what", &what)]);
        if let Some(would) = &tie_up.would {
            text = self.and_also(text, &self.would(would));
        }
        self.and_also(text, &self.way_out(tie_up))
    }

    fn would(&self, Would { element, slip }: &Would) -> String {
        let [first, second] = self.train.ends(*element);
        let key = if second == Body::Housing {
            "would-turn"
        } else {
            "would-slip"
        };
        let values = [
            ("element", &*self.element(*element, Case::Object)),
            ("first", &self.body(first, Case::Subject)),
            ("second", &self.body(second, Case::Subject)),
            ("speed", &number(slip.abs().to_f64(), 3)),
            way_of(slip.signum() > 0),
            pace_of(Pace::of(slip, &Fraction::ONE)),
        ];
        self.say(key, 0, &values)
    }

    fn way_out(&self, tie_up: &TieUp) -> String {
        let all = tie_up.fight.elements;
        if tie_up.freeing.is_empty() {
            self.plain("fights-all")
        } else if tie_up.freeing != all {
            let others = one_of(&self.names(all.minus(tie_up.freeing), Case::Object));
            let freeing = one_of(&self.names(tie_up.freeing, Case::Object));
            self.say(
                "fights-some",
                0,
                &[("freeing", &freeing), ("others", &others)],
            )
        } else if all.len() > 1 {
            self.plain("fights-one")
        } else {
            String::new()
        }
    }
}
