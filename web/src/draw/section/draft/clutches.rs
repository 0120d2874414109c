//! Placing clutches where their leads are cheapest.

use super::{Draft, cheapest};
use crate::draw::section::board::Board;
use crate::draw::section::grid::{Grid, Node};
use crate::draw::section::plan::{PackPlace, member};

impl Draft<'_> {
    /// Places a clutch and joins its leads; `None` where there is no room, or all costs too much.
    pub(super) fn fit_clutch(&mut self, element: usize) -> Option<()> {
        let [first, second] = self.train.ends(element).map(|end| member(end, self.train));
        let grid = self.plan.gears.grid;
        let reach = |shaft: usize| {
            let sources = self.sources(shaft);
            (!sources.are_none()).then(|| self.board.search(shaft, sources))
        };
        let mut from = [first, second].map(reach);
        let places = clutch_places(&self.board, grid, self.chosen_gap(element));
        let ([lead, other], place) = cheapest(self.left(), |most| {
            for found in from.iter_mut().flatten() {
                found.spread(most);
            }
            // A shaft with nothing placed yet starts here.
            let cost = |end: usize, node: Node| match &from[end] {
                Some(found) => found.cost(node),
                None => Some(0),
            };
            let costs = places.iter().filter_map(|&(toll, ends, place)| {
                let leads = cost(0, ends[0])? + cost(1, ends[1])?;
                Some((leads + toll, (ends, place)))
            });
            costs.min_by_key(|&(cost, _)| cost)
        })?;
        // They are two columns apart.
        let middle = (lead + other) / 2;
        // The way that was found to the first lead is the cheapest still, unless the clutch lies in it.
        let known = from[0].as_ref().and_then(|found| found.way(lead));
        let known = known.filter(|way| !way.contains(&middle) && !way.contains(&other));
        let leads = [(first, lead, known), (second, other, None)];
        let before = leads.each_ref().map(|(shaft, ..)| self.sources(*shaft));
        self.put(element, place);
        for ((shaft, lead, known), sources) in leads.into_iter().zip(before) {
            if sources.are_none() {
                continue;
            }
            let way = known.or_else(|| {
                let mut found = self.board.search(shaft, sources);
                found.spread_to(&self.nodes(&[lead]), self.left());
                found.way(lead)
            });
            self.lay(shaft, way?)?;
        }
        Some(())
    }
}

/// Where a clutch may lie on a board: what that costs beside the leads, the nodes where they end, that of the first
/// end before that of the second, and the place; in one gap only where that was chosen.
pub fn clutch_places(
    board: &Board,
    grid: Grid,
    chosen: Option<u32>,
) -> Vec<(u32, [Node; 2], PackPlace)> {
    let mut places = Vec::new();
    for gap in (0..=grid.sets).filter(|&gap| chosen.is_none_or(|chosen| chosen as usize == gap)) {
        let start = grid.gap_start(gap);
        let toll = board.toll_of_gap(gap);
        for row in [grid.low_row(), grid.high_row()] {
            // One column stays free at either side of the gap for leads that pass.
            for column in start + 1..start + grid.gap_columns - 3 {
                let nodes = [0, 1, 2].map(|step| grid.node(column + step, row));
                if !nodes.iter().all(|&node| board.is_empty(node)) {
                    continue;
                }
                let [left, _, right] = nodes;
                for (flipped, ends) in [(false, [left, right]), (true, [right, left])] {
                    let place = PackPlace::Clutch {
                        column,
                        row,
                        flipped,
                    };
                    places.push((toll, ends, place));
                }
            }
        }
    }
    places
}
