//! What the page says of a layout that cannot be built.

use levertrain_core::words::{Case, listed, noun_as, said};
use levertrain_core::{Body, Nesting, Train};

use super::Layout;
use super::grid::Node;
use super::plan::Plan;

impl Layout {
    /// Whether shafts cross as drawn though the train can be built without.
    pub fn crosses_needlessly(&self) -> bool {
        self.crossings() > 0 && self.train.nesting() == Nesting::Nests
    }

    /// Which shafts pass through one another as drawn, and whether they must; `None` where none do.
    pub fn caution(&self) -> Option<String> {
        let mut passes: Vec<String> = Vec::new();
        for crossing in &self.plan.crossings {
            let [first, second] = crossing.members;
            let [one, other] = [(first, Case::Subject), (second, Case::Object)]
                .map(|(member, case)| called(&self.train, &self.plan, member, crossing.node, case));
            let said = said("caution-pass", &[("one", &one), ("other", &other)]);
            if !passes.contains(&said) {
                passes.push(said);
            }
        }
        if passes.is_empty() {
            return None;
        }
        let message = match self.train.nesting() {
            Nesting::Crosses => "caution-crosses",
            Nesting::Nests => "caution-nests",
            Nesting::Undecided => "caution-undecided",
        };
        Some(said(message, &[("passes", &listed(&passes))]))
    }
}

/// A shaft by its name; the housing by the member that is held to it there.
fn called(train: &Train, plan: &Plan, member: usize, at: Node, case: Case) -> String {
    if member + 1 < plan.runs.len() {
        return noun_as(train.body_label(Body::Shaft(member)), case);
    }
    let mut reached = vec![at];
    let mut seen = 0;
    while let Some(&node) = reached.get(seen) {
        seen += 1;
        for &(a, b) in plan.runs.last().into_iter().flatten() {
            let next = match node {
                _ if node == a => b,
                _ if node == b => a,
                _ => continue,
            };
            if !reached.contains(&next) {
                reached.push(next);
            }
        }
    }
    let held = plan.parts.iter().find(|part| {
        part.body == Body::Housing
            && part
                .nodes(&plan.grid)
                .iter()
                .any(|node| reached.contains(node))
    });
    let of = held.map(|part| {
        let facts = train.scenario().couplings[part.coupling].facts();
        let role = facts
            .members()
            .get(part.member)
            .map(|member| member.role.word());
        let values = [
            ("member", role.unwrap_or_default()),
            ("set", &noun_as(facts.label(), Case::Dative)),
            case.value(),
        ];
        said("caution-support", &values)
    });
    of.unwrap_or_else(|| noun_as(train.body_label(Body::Housing), case))
}
