//! What tooth counts do not satisfy, as sentences.

use crate::base::catalogue::Values;
use crate::base::number::number;
use crate::base::said::said;
use crate::model::coupling::PinionName;
use crate::model::tooth_checks::{FEWEST_TEETH, Step, ToothWarning, Touching};

impl ToothWarning {
    /// The rule with the numbers in it, as a sentence.
    pub fn sentence(&self) -> String {
        match self {
            Self::NotCoaxial {
                sun,
                pinion,
                ring,
                wanted,
            } => said(
                "tooth-coaxial",
                &[
                    ("sun", sun.0.word()),
                    ("sun-teeth", &sun.1.to_string()),
                    ("pinion", pinion.0.word()),
                    ("pinion-teeth", &pinion.1.to_string()),
                    ("wanted", &wanted.to_string()),
                    ("ring", &ring.to_string()),
                ],
            ),
            Self::UnequalSpacing { sum, teeth, count } => said(
                "tooth-spacing",
                &[
                    ("sum", sum),
                    ("teeth", &teeth.to_string()),
                    ("pinions", &count.to_string()),
                ],
            ),
            Self::SteppedSpacing { teeth, total, step } => {
                let [sun, p, q, ring] = teeth.map(|teeth| teeth.to_string());
                let values = [
                    ("sun", &*sun),
                    ("p", &p),
                    ("q", &q),
                    ("ring", &ring),
                    ("total", &total.to_string()),
                ];
                stepped("tooth-stepped-spacing", &values, *step)
            }
            Self::SunsSpacing {
                teeth,
                products,
                step,
            } => {
                let [first, p, q, second] = teeth.map(|teeth| teeth.to_string());
                let [left, right] = products.map(|product| product.to_string());
                let values = [
                    ("first", &*first),
                    ("p", &p),
                    ("q", &q),
                    ("second", &second),
                    ("left", &left),
                    ("right", &right),
                ];
                stepped("tooth-suns-spacing", &values, *step)
            }
            Self::SunsNotCoaxial { teeth, sums } => {
                let [first, p, q, second] = teeth.map(|teeth| teeth.to_string());
                let [left, right] = sums.map(|sum| sum.to_string());
                let values = [
                    ("first", &*first),
                    ("p", &p),
                    ("q", &q),
                    ("second", &second),
                    ("left", &left),
                    ("right", &right),
                ];
                said("tooth-suns-coaxial", &values)
            }
            Self::SteppedNotCoaxial {
                teeth,
                inside,
                outside,
            } => {
                let [sun, p, q, ring] = teeth.map(|teeth| teeth.to_string());
                let values = [
                    ("sun", &*sun),
                    ("p", &p),
                    ("q", &q),
                    ("ring", &ring),
                    ("inside", &inside.to_string()),
                    ("outside", &number(*outside as f64, 1)),
                ];
                said("tooth-stepped-coaxial", &values)
            }
            Self::NeighboursTouch {
                count,
                pinion,
                distance,
                needed,
            } => said(
                "tooth-neighbours",
                &[
                    ("pinions", &count.to_string()),
                    ("teeth", &pinion.to_string()),
                    ("distance", &format!("{distance:.1}")),
                    ("needed", &needed.to_string()),
                ],
            ),
            Self::PairsTouch {
                touching,
                distance,
                needed,
            } => said(
                "tooth-pairs",
                &[
                    ("pinions", key(*touching)),
                    ("distance", &format!("{distance:.1}")),
                    ("needed", &needed.to_string()),
                ],
            ),
            Self::LongPinionTouches {
                small,
                large,
                needed,
            } => said(
                "tooth-long-pinion",
                &[
                    ("small", &small.to_string()),
                    ("large", &large.to_string()),
                    ("needed", &needed.to_string()),
                ],
            ),
            Self::FewTeeth { gear, teeth } => said(
                "tooth-fewest",
                &[
                    ("gear", gear.word()),
                    ("teeth", &teeth.to_string()),
                    ("least", &FEWEST_TEETH.to_string()),
                ],
            ),
            Self::DoesNotFit { first, second } => said(
                "tooth-inside",
                &[
                    ("first", &first.to_string()),
                    ("second", &second.to_string()),
                ],
            ),
            Self::PinsDoNotReach {
                first,
                radii,
                between,
            } => said(
                "tooth-pins",
                &[
                    ("pinions", key(Touching::Row(*first))),
                    ("first", &radii[0].to_string()),
                    ("second", &radii[1].to_string()),
                    ("between", &between.to_string()),
                ],
            ),
        }
    }
}

/// A message about stepped pinions with their step.
fn stepped(message: &str, values: Values<'_>, step: Step) -> String {
    let [product, count, common] =
        [step.product(), step.count, step.common].map(|number| number.to_string());
    let more = [
        ("step", &*product),
        ("pinions", &count),
        ("common", &common),
    ];
    said(message, &[values, &more].concat())
}

/// What messages choose by.
const fn key(touching: Touching) -> &'static str {
    match touching {
        Touching::Row(PinionName::Inner) => "inner",
        Touching::Row(PinionName::Outer) => "outer",
        Touching::Row(PinionName::Short) => "short",
        Touching::Row(_) => "long",
        Touching::Next(PinionName::Outer) => "outer-inner",
        Touching::Next(_) => "long-short",
    }
}

#[cfg(test)]
mod tests {
    use crate::Train;
    use crate::report::warnings;

    /// The warnings of one coupling, whose other fields stand in `fields`.
    #[track_caller]
    fn check(fields: &str, expected: &[&str]) {
        let text = format!(
            r#"{{"format": 1, "name": "T", "input": "a", "output": "b",
            "shafts": [{{"id": "a", "label": "A"}}, {{"id": "b", "label": "B"}},
              {{"id": "c", "label": "C"}}, {{"id": "d", "label": "D"}}],
            "couplings": [{{"id": "x", "label": "X", {fields}}}]}}"#
        );
        let train = Train::parse(&text).unwrap_or_else(|problems| panic!("{problems:?}"));
        let said = warnings(&train).into_iter().map(|warning| warning.text);
        assert_eq!(said.collect::<Vec<_>>(), expected);
    }

    #[test]
    fn a_set_with_one_row() {
        check(
            r#""kind": "planetary", "carrier": "c", "sun": {"shaft": "a", "teeth": 11},
            "ring": {"shaft": "b", "teeth": 88}, "pinion": {"teeth": 40, "count": 4}"#,
            &[
                "sun 11 + 2 × pinion 40 = 91, but the ring has 88: the gears need profile shift to \
                 share one axis",
                "S + R = 99 is not a multiple of 4: 4 pinions cannot be put in at equal angles",
                "4 pinions of 40 teeth stand 36.1 modules apart and need more than 42: neighbours \
                 touch",
                "the sun has 11 teeth, fewer than the usual least of 12",
            ],
        );
    }

    #[test]
    fn sets_with_two_rows() {
        let double = |ring: u32, count: u32, outer: u32| {
            format!(
                r#""kind": "double-pinion", "carrier": "c", "sun": {{"shaft": "a", "teeth": 30}},
                "ring": {{"shaft": "b", "teeth": {ring}}}, "inner": {{"teeth": 20}},
                "outer": {{"teeth": {outer}}}, "count": {count}"#
            )
        };
        check(
            &double(160, 5, 20),
            &[
                "centre distances 25, 70 and 20 modules make no triangle: inner and outer pinions \
                 cannot mesh",
            ],
        );
        check(
            &double(74, 8, 20),
            &[
                "R − S = 44 is not a multiple of 8: 8 pinions cannot be put in at equal angles",
                "inner pinions stand 19.1 modules apart and need more than 22: they touch",
            ],
        );
        check(
            &double(74, 4, 20),
            &[
                "an outer pinion and the next inner one stand 20.0 modules apart and need more \
                 than 22: they touch",
            ],
        );
        check(
            r#""kind": "ravigneaux", "carrier": "c", "small_sun": {"shaft": "a", "teeth": 30},
            "large_sun": {"shaft": "d", "teeth": 34}, "ring": {"shaft": "b", "teeth": 75},
            "short": {"teeth": 20}, "long": {"teeth": 20}, "count": 4"#,
            &[
                "large sun 34 + 2 × long pinion 20 = 74, but the ring has 75: the gears need \
                 profile shift to share one axis",
                "R − Sa = 45 is not a multiple of 4: 4 pinions cannot be put in at equal angles",
                "Sb + R = 109 is not a multiple of 4: 4 pinions cannot be put in at equal angles",
                "a long pinion and the next short one stand 20.0 modules apart and need more than \
                 22: they touch",
                "the large sun has 34 teeth and needs more than 34 (small sun 30 + 4): the long \
                 pinions touch the small sun",
            ],
        );
    }

    #[test]
    fn stepped_pinions() {
        check(
            r#""kind": "stepped", "carrier": "c", "sun": {"shaft": "a", "teeth": 36},
            "ring": {"shaft": "b", "teeth": 88}, "sun_pinion": {"teeth": 32},
            "ring_pinion": {"teeth": 22}, "count": 3"#,
            &[
                "sun 36 + sun pinion 32 = 68, but ring 88 − ring pinion 22 = 66: with one module \
                 for both steps the gears need profile shift to share one axis",
                "sun 36 × ring pinion 22 + ring 88 × sun pinion 32 = 3608 is not a multiple of 6 \
                 (3 pinions × 2, the greatest common divisor of their steps): stepped pinions cut \
                 alike cannot be put in at equal angles",
            ],
        );
        check(
            r#""kind": "stepped-suns", "carrier": "c", "first_sun": {"shaft": "a", "teeth": 30},
            "second_sun": {"shaft": "b", "teeth": 31}, "first_pinion": {"teeth": 20},
            "second_pinion": {"teeth": 20}, "count": 3"#,
            &[
                "first sun 30 + first pinion 20 = 50, but second sun 31 + second pinion 20 = 51: \
                 with one module for both steps the gears need profile shift to share one axis",
                "first sun 30 × second pinion 20 = 600 and second sun 31 × first pinion 20 = 620 \
                 do not differ by a multiple of 60 (3 pinions × 20, the greatest common divisor of \
                 their steps): stepped pinions cut alike cannot be put in at equal angles",
            ],
        );
    }

    #[test]
    fn a_pair() {
        check(
            r#""kind": "gear-pair", "mesh": "internal", "first": {"shaft": "a", "teeth": 30},
            "second": {"shaft": "b", "teeth": 20}"#,
            &["the first gear with 30 teeth does not fit inside the internal one with 20"],
        );
    }
}
