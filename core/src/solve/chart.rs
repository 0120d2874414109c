//! The range chart: what each named range makes of the train, and the steps between them.

use levertrain_exact::Fraction;

use crate::base::element_set::ElementSet;
use crate::solve::Combination;
use crate::solve::settle::{Duty, Settled, Verdict};
use crate::train::Train;

/// The named ranges of a train, solved.
#[derive(Debug, Clone)]
pub struct RangeChart<'a> {
    /// One entry a range, in the scenario's order.
    pub ranges: Vec<ChartEntry<'a>>,
    /// Largest forward ratio over the smallest; `None` with fewer than two forward ranges.
    pub spread: Option<Fraction>,
}

/// One range of a [`RangeChart`].
#[derive(Debug, Clone)]
pub struct ChartEntry<'a> {
    /// The solved combination, its one-way clutches settled for drive.
    pub combination: Combination<'a>,
    /// How sure the settlement of its one-way clutches is.
    pub verdict: Verdict,
    /// Whether it holds the output back when the load drives.
    pub engine_braking: bool,
    /// Ratio of this range over that of the next one whose ratio is another, where both drive
    /// forwards.
    pub step: Option<Fraction>,
}

impl Train {
    /// Solves the named ranges.
    ///
    /// step = iₖ / iₖ₊₁ between neighbours that drive forwards, of which ranges with the same
    /// ratio count as one; spread = i_max / i_min over the ranges that drive forwards (common
    /// practice, no source).
    pub fn range_chart(&self) -> RangeChart<'_> {
        let mut ranges: Vec<ChartEntry<'_>> = Vec::new();
        for range in 0..self.scenario().ranges.len() {
            let applied = self.range(range);
            // Ranges that apply the same are solved once: one-way clutches alone can give a train
            // many names for one hard combination.
            let known = (0..range).find(|&earlier| self.range(earlier) == applied);
            ranges.push(match known {
                Some(earlier) => ranges[earlier].clone(),
                None => self.chart_entry(applied),
            });
        }
        let ratios: Vec<Option<Fraction>> = ranges
            .iter()
            .map(|entry| entry.combination.state().ratio().cloned())
            .collect();

        let step = |index: usize| {
            let this = ratios[index].as_ref()?;
            let mut later = ratios.iter().skip(index + 1);
            let next = later.find(|ratio| ratio.as_ref() != Some(this))?.as_ref()?;
            let forwards = this.signum() > 0 && next.signum() > 0;
            if forwards { this.over(next) } else { None }
        };
        for (index, entry) in ranges.iter_mut().enumerate() {
            entry.step = step(index);
        }
        let forward: Vec<&Fraction> = ratios
            .iter()
            .flatten()
            .filter(|ratio| ratio.signum() > 0)
            .collect();
        let spread = match (forward.iter().max(), forward.iter().min()) {
            (Some(largest), Some(smallest)) if forward.len() > 1 => largest.over(smallest),
            _ => None,
        };
        RangeChart { ranges, spread }
    }

    /// An entry that does not know its neighbours yet.
    fn chart_entry(&self, applied: ElementSet) -> ChartEntry<'_> {
        let Settled {
            combination,
            verdict,
        } = self.settle(applied, Duty::Drive);
        ChartEntry {
            engine_braking: self.coasts_alike(applied, combination.state().ratio()),
            step: None,
            verdict,
            combination,
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::train::Train;

    #[test]
    fn a_step_leads_to_the_next_other_ratio() {
        let file = include_str!("../../../scenarios/07-three-speed-one-way.json");
        let train = Train::parse(file).unwrap_or_else(|problems| panic!("{problems:?}"));
        let chart = train.range_chart();
        let ratio = |range: usize| {
            let state = chart.ranges[range].combination.state();
            let Some(ratio) = state.ratio() else {
                panic!("range {range} does not drive")
            };
            ratio.clone()
        };
        let step = |range: usize| chart.ranges[range].step.clone();
        assert_eq!(ratio(0), ratio(1), "1st, and 1st with V");
        assert_eq!(step(0), ratio(0).over(&ratio(2)));
        assert_eq!(step(1), step(0));
        assert_eq!(step(2), ratio(2).over(&ratio(3)));
        assert_eq!(step(3), None, "reverse follows");
    }
}
