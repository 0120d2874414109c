//! Plans after embeddings, of every scenario that nests.

use levertrain_core::{Body, Nesting};

use super::*;
use crate::draw::section::tests::{pieces, places, what_is_held};
use crate::draw::tests::sessions;

/// The first plan that an embedding finds room for.
pub(super) fn nested(train: &Train) -> Option<Sketch> {
    const EMBEDDINGS: usize = 20;
    let mut dice = Dice::new();
    (0..EMBEDDINGS).find_map(|_| {
        let mut laying = Laying::of(train, &mut dice)?;
        loop {
            if let Poll::Ready(plan) = laying.advance(&mut dice) {
                return plan;
            }
        }
    })
}

#[test]
fn a_plan_after_an_embedding_has_all_and_crosses_nothing() {
    let mut drawn = 0;
    for (name, session) in sessions() {
        let train = session.train();
        if train.nesting() != Nesting::Nests {
            assert!(Laying::of(train, &mut Dice::new()).is_none(), "{name}");
            continue;
        }
        let sketch = nested(train).unwrap_or_else(|| panic!("{name} finds no room"));
        let plan = sketch
            .whole()
            .unwrap_or_else(|| panic!("{name} lacks something"));
        assert!(plan.crossings.is_empty(), "{name}");
        for shaft in 0..train.scenario().shafts.len() {
            let count = pieces(&places(&plan, train, shaft), &plan.runs[shaft]);
            assert_eq!(count, 1, "{name}: shaft {shaft}");
        }
        let held = plan.parts.iter().filter(|part| part.body == Body::Housing);
        assert_eq!(plan.supports.len(), held.count(), "{name}");
        what_is_held(&name, &plan, train);
        drawn += 1;
    }
    assert!(drawn > 8, "too few that nest: {drawn}");
}
