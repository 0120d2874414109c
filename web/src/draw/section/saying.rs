//! What the page says of a layout that cannot be built.

use levertrain_core::words::{listed, noun};
use levertrain_core::{Body, Nesting, Train};

use super::Layout;
use super::grid::Node;
use super::plan::Plan;

impl Layout {
    /// Which shafts pass through one another as drawn, and whether they must; `None` where none do.
    pub fn caution(&self) -> Option<String> {
        let mut passes: Vec<String> = Vec::new();
        for crossing in &self.plan.crossings {
            let [one, other] = crossing
                .members
                .map(|member| called(&self.train, &self.plan, member, crossing.node));
            let said = format!("{one} would pass through {other}");
            if !passes.contains(&said) {
                passes.push(said);
            }
        }
        if passes.is_empty() {
            return None;
        }
        let passes = listed(&passes);
        Some(match self.train.nesting() {
            Nesting::Crosses => format!(
                "Cannot be built as drawn: {passes}. No layout round one axis is without such a place."
            ),
            Nesting::Nests => format!(
                "Not as it would be built: here {passes}, and there is a layout without such a place."
            ),
            Nesting::Undecided => format!("Cannot be built as drawn: {passes}."),
        })
    }
}

/// A shaft by its name; the housing by the member that is held to it there.
fn called(train: &Train, plan: &Plan, member: usize, at: Node) -> String {
    if member + 1 < plan.runs.len() {
        return noun(train.body_label(Body::Shaft(member)));
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
        format!(
            "the support of the {} of {}",
            role.unwrap_or_default(),
            noun(facts.label())
        )
    });
    of.unwrap_or_else(|| noun(train.body_label(Body::Housing)))
}
