//! Whether two trains are one layout, by renaming.

use std::collections::BTreeSet;

use levertrain_core::Scenario;

/// What a body is known by, whatever it is called: housing, input, output, and the places of members on it.
type Body = BTreeSet<(usize, usize)>;

/// Input and output have places of their own.
const INPUT: (usize, usize) = (usize::MAX, 0);
const OUTPUT: (usize, usize) = (usize::MAX, 1);

/// All bodies, and the two that each element joins, with the sets in this order.
fn shape(scenario: &Scenario, order: &[usize]) -> (BTreeSet<Body>, Vec<[Body; 2]>) {
    let body = |id: &str| -> Body {
        let ends = [
            (scenario.input.as_str(), INPUT),
            (scenario.output.as_str(), OUTPUT),
        ];
        let ends = ends.into_iter().filter(|(shaft, _)| *shaft == id);
        let mut places: Body = ends.map(|(_, place)| place).collect();
        for (place, &set) in order.iter().enumerate() {
            let members = scenario.couplings[set].facts().members();
            let own = members
                .iter()
                .enumerate()
                .filter(|(_, member)| member.shaft == id);
            places.extend(own.map(|(member, _)| (place, member)));
        }
        places
    };
    let bodies = scenario.shafts.iter().map(|shaft| body(&shaft.id));
    let mut elements: Vec<[Body; 2]> = scenario
        .elements
        .iter()
        .map(|element| {
            let mut ends = element.ends().map(body);
            ends.sort();
            ends
        })
        .collect();
    elements.sort();
    (bodies.collect(), elements)
}

/// Whether the trains have the same sets joined in the same way, and elements in the same places. At most two sets.
pub fn is_alike(one: &Scenario, other: &Scenario) -> bool {
    let kinds = |scenario: &Scenario, order: &[usize]| -> Vec<String> {
        let sets = order.iter().map(|&set| &scenario.couplings[set]);
        sets.map(|set| set.facts().kind_words().to_owned())
            .collect()
    };
    let plain: Vec<usize> = (0..one.couplings.len()).collect();
    let turned: Vec<usize> = plain.iter().rev().copied().collect();
    one.couplings.len() == other.couplings.len()
        && [&plain, &turned].iter().any(|order| {
            kinds(one, &plain) == kinds(other, order) && shape(one, &plain) == shape(other, order)
        })
}
