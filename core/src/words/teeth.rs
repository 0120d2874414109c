//! What tooth counts do not satisfy, as sentences.

use crate::base::number::{decimal_sign, number};
use crate::base::said::{said, said_of};
use crate::model::coupling::PinionName;
use crate::model::tooth_checks::{FEWEST_TEETH, ToothWarning, Touching};

impl ToothWarning {
    /// The rule with the numbers in it, as a sentence.
    pub fn sentence(&self) -> String {
        match *self {
            Self::NotCoaxial {
                sun,
                pinion,
                ring,
                wanted,
            } => said_of(
                "tooth-coaxial",
                &[("sun", sun.0.word()), ("pinion", pinion.0.word())],
                &[
                    ("sun-teeth", sun.1.get()),
                    ("pinion-teeth", pinion.1.get()),
                    ("wanted", wanted),
                    ("ring", ring.get()),
                ],
            ),
            Self::UnequalSpacing { sum, teeth, count } => said_of(
                "tooth-spacing",
                &[("sum", sum)],
                &[("teeth", teeth), ("pinions", count)],
            ),
            Self::SteppedSpacing {
                teeth: [sun, p, q, ring],
                total,
                step,
            } => said_of(
                "tooth-stepped-spacing",
                &[],
                &[
                    ("sun", sun.get()),
                    ("p", p.get()),
                    ("q", q.get()),
                    ("ring", ring.get()),
                    ("total", total),
                    ("step", step.product()),
                    ("pinions", step.count),
                    ("common", step.common),
                ],
            ),
            Self::SunsSpacing {
                teeth: [first, p, q, second],
                products: [left, right],
                step,
            } => said_of(
                "tooth-suns-spacing",
                &[],
                &[
                    ("first", first.get()),
                    ("p", p.get()),
                    ("q", q.get()),
                    ("second", second.get()),
                    ("left", left),
                    ("right", right),
                    ("step", step.product()),
                    ("pinions", step.count),
                    ("common", step.common),
                ],
            ),
            Self::SunsNotCoaxial {
                teeth: [first, p, q, second],
                sums: [left, right],
            } => said_of(
                "tooth-suns-coaxial",
                &[],
                &[
                    ("first", first.get()),
                    ("p", p.get()),
                    ("q", q.get()),
                    ("second", second.get()),
                    ("left", left),
                    ("right", right),
                ],
            ),
            Self::SteppedNotCoaxial {
                teeth: [sun, p, q, ring],
                inside,
                outside,
            } => said_of(
                "tooth-stepped-coaxial",
                &[("outside", &number(outside as f64, 1))],
                &[
                    ("sun", sun.get()),
                    ("p", p.get()),
                    ("q", q.get()),
                    ("ring", ring.get()),
                    ("inside", inside),
                ],
            ),
            Self::NeighboursTouch {
                count,
                pinion,
                distance,
                needed,
            } => said_of(
                "tooth-neighbours",
                &[
                    ("distance", &tenths(distance)),
                    ("needed", &signed(needed.to_string())),
                ],
                &[("pinions", count), ("teeth", pinion.get())],
            ),
            Self::PairsTouch {
                touching,
                distance,
                needed,
            } => said(
                "tooth-pairs",
                &[
                    ("pinions", key(touching)),
                    ("distance", &tenths(distance)),
                    ("needed", &signed(needed.to_string())),
                ],
            ),
            Self::LongPinionTouches {
                small,
                large,
                needed,
            } => said_of(
                "tooth-long-pinion",
                &[],
                &[
                    ("small", small.get()),
                    ("large", large.get()),
                    ("needed", needed),
                ],
            ),
            Self::FewTeeth { gear, teeth } => said_of(
                "tooth-fewest",
                &[("gear", gear.word())],
                &[("teeth", teeth.get()), ("least", FEWEST_TEETH)],
            ),
            Self::DoesNotFit { first, second } => said_of(
                "tooth-inside",
                &[],
                &[("first", first.get()), ("second", second.get())],
            ),
            Self::PinsDoNotReach {
                first,
                radii: [one, other],
                between,
            } => said(
                "tooth-pins",
                &[
                    ("pinions", key(Touching::Row(first))),
                    ("first", &signed(one.to_string())),
                    ("second", &signed(other.to_string())),
                    ("between", &signed(between.to_string())),
                ],
            ),
        }
    }
}

/// A distance to a tenth of a module.
fn tenths(distance: f64) -> String {
    signed(format!("{distance:.1}"))
}

/// A decimal number as it is written in the language that is spoken.
fn signed(number: String) -> String {
    number.replacen('.', decimal_sign(), 1)
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
