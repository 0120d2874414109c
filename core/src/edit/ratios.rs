//! The ratios that a set could have with teeth that can be cut and meshed, near those that it has.

use levertrain_exact::Fraction;

use super::nearest::{counts, nearest};
use crate::base::short_sort::sort_short_by;
use crate::model::coupling::{Coupling, Symbol, Teeth};

/// By how many teeth a gear is changed at most.
const FARTHEST: i64 = 14;
/// How many tooth counts are tried at most for each, so that it is done before anybody waits.
const MOST: usize = 600;

/// A ratio that a set could have.
#[derive(Debug, Clone, PartialEq)]
pub struct NearRatio {
    /// Its tooth ratio k: see [`ratio_of`].
    pub ratio: Fraction,
    /// The tooth counts of its gears, in the order of [`crate::coupling::Parts`].
    pub teeth: Vec<Teeth>,
}

/// The tooth ratio of a coupling: of a planetary set R/S, teeth of the ring over those of the sun; of
/// others the k of their last row ([`crate::coupling::RowRatio`]), with the letters of its formula.
pub fn ratio_of(coupling: &Coupling) -> Option<(String, Fraction)> {
    let row = coupling.facts().row_ratios().pop()?;
    let product = |symbols: &[Symbol]| {
        symbols
            .iter()
            .map(|(_, teeth)| teeth.coefficient())
            .product()
    };
    let letters = |symbols: &[Symbol]| {
        let letters: Vec<&str> = symbols.iter().map(|(letter, _)| *letter).collect();
        match letters.len() {
            1 => letters.concat(),
            _ => format!("({})", letters.join("·")),
        }
    };
    let (above, below) = (&row.numerator, &row.denominator);
    let words = format!("{}/{}", letters(above), letters(below));
    let words = words.trim_start_matches('(').replacen(")/", "/", 1);
    Some((words, Fraction::new(product(above), product(below))?))
}

/// The ratios near that of a coupling which tooth counts near its own have that keep all rules, each
/// with the counts that change least, rising. Its own is among them where it keeps them.
pub fn near_ratios(coupling: &Coupling) -> Vec<NearRatio> {
    let own = counts(&mut coupling.clone());
    let mut found: Vec<(i64, NearRatio)> = Vec::new();
    for gear in [0, own.len().saturating_sub(1)] {
        for change in -FARTHEST..=FARTHEST {
            let mut changed = coupling.clone();
            let mut parts = changed.parts().teeth;
            let Some((_, teeth)) = parts.get_mut(gear) else {
                continue;
            };
            let Ok(count) = Teeth::try_from(teeth.coefficient() + change) else {
                continue;
            };
            **teeth = count;
            let Some(teeth) = nearest(&changed, Some(gear), MOST) else {
                continue;
            };
            for ((_, cut), teeth) in changed.parts().teeth.into_iter().zip(&teeth) {
                *cut = *teeth;
            }
            let Some((_, ratio)) = ratio_of(&changed) else {
                continue;
            };
            let pairs = own.iter().zip(&teeth);
            let far = pairs.map(|(own, teeth)| (own.coefficient() - teeth.coefficient()).abs());
            found.push((far.sum(), NearRatio { ratio, teeth }));
        }
    }
    sort_short_by(&mut found, |(far, one), (other_far, other)| {
        one.ratio.cmp(&other.ratio).then(far.cmp(other_far))
    });
    found.dedup_by(|(_, later), (_, first)| later.ratio == first.ratio);
    found.into_iter().map(|(_, near)| near).collect()
}
