//! Where everything that can be changed stands in the half-section, for whoever changes it there.

use levertrain_core::Body;
use levertrain_core::scenario::HOUSING as HOUSING_ID;
use serde::Serialize;

use super::Side;
use super::figures::outline;
use super::keeping::was_turned;
use super::outlines::part_area;
use super::stage::{HOUSING, Stage};
use crate::draw::scene::Bounds;

/// Places in the half-section, in CSS pixels.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct Grips {
    /// The members of the sets and pairs.
    pub members: Vec<MemberGrip>,
    /// The sets and pairs, in order along the axis.
    pub sets: Vec<SetGrip>,
    /// The brakes and clutches, one-way clutches too.
    pub elements: Vec<ElementGrip>,
    /// Where the input comes in and where the output goes out, each from the edge of the drawing.
    pub ends: [Area; 2],
    /// The middle of the room before the first set, between two and after the last.
    pub gaps: Vec<f64>,
    /// Height of the axis.
    pub axis: f64,
    /// Underside of the housing.
    pub housing: f64,
}

/// A box in the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct Area {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// Where a member is.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct MemberGrip {
    /// Id of its set.
    pub set: String,
    /// Which of the members it is, as edits count them.
    pub at: usize,
    /// Id of its shaft, or `housing`.
    pub shaft: String,
    /// Its box.
    pub area: Area,
}

/// Where a set is.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct SetGrip {
    /// Its id.
    pub id: String,
    /// All that is drawn of it.
    pub area: Area,
    /// Whether it is drawn turned round; nothing for what looks the same then.
    pub turned: Option<bool>,
}

/// Where the packs of an element are.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct ElementGrip {
    /// Its id.
    pub id: String,
    /// A box about them.
    pub area: Area,
    /// The room along the axis that it is in, or that is before the set it hangs over.
    pub gap: usize,
}

impl From<Bounds> for Area {
    fn from(bounds: Bounds) -> Self {
        let Bounds {
            left,
            top,
            width,
            height,
        } = bounds;
        Self {
            left,
            top,
            width,
            height,
        }
    }
}

impl Stage<'_> {
    /// Where everything that can be changed stands.
    pub fn grips(&self) -> Grips {
        /// Of the packs of an element.
        const PACK: f64 = 36.0;
        /// Of the line of an end.
        const LINE: f64 = 24.0;
        let scenario = self.train().scenario();
        let parts = self.plan().parts.iter();
        let sets = scenario.couplings.iter().enumerate();
        let elements = scenario.elements.iter().enumerate();
        let ends = [Side::Input, Side::Output].map(|end| {
            let (inner, outer) = self.end(end);
            Area {
                left: inner.x.min(outer.x),
                top: outer.y - LINE / 2.0,
                width: (inner.x - outer.x).abs().min(2.0 * LINE),
                height: LINE,
            }
        });
        let width = self.size().width;
        // The output's is at the far edge.
        let [input, mut output] = ends;
        output.left = (width - output.width - 8.0).max(output.left);
        Grips {
            members: parts
                .map(|part| MemberGrip {
                    set: scenario.couplings[part.coupling].facts().id().to_owned(),
                    at: part.member,
                    shaft: match part.body {
                        Body::Shaft(shaft) => scenario.shafts[shaft].id.clone(),
                        Body::Housing => HOUSING_ID.to_owned(),
                    },
                    area: part_area(self, part).into(),
                })
                .collect(),
            sets: sets
                .filter_map(|(index, set)| {
                    Some(SetGrip {
                        id: set.facts().id().to_owned(),
                        area: outline(self, index)?.into(),
                        turned: was_turned(self.plan(), self.train(), index),
                    })
                })
                .collect(),
            elements: elements
                .map(|(index, element)| {
                    let centre = self.pack_centre(index);
                    ElementGrip {
                        id: element.id().to_owned(),
                        area: Area {
                            left: centre.x - PACK / 2.0,
                            top: centre.y - PACK / 2.0,
                            width: PACK,
                            height: PACK,
                        },
                        gap: self
                            .plan()
                            .grid
                            .set_at(self.plan().packs[index].first_column()),
                    }
                })
                .collect(),
            ends: [input, output],
            gaps: self.gaps(),
            axis: self.axis(),
            housing: HOUSING,
        }
    }

    /// The middle of the room before the first set, between two and after the last.
    fn gaps(&self) -> Vec<f64> {
        let sets = self.plan().grid.sets;
        let width = self.size().width;
        let gaps = (0..=sets).map(|gap| {
            let left = gap.checked_sub(1).map_or(0.0, |before| self.face(before).1);
            let right = if gap < sets { self.face(gap).0 } else { width };
            (left + right) / 2.0
        });
        gaps.collect()
    }
}
