//! All strokes of a plan, found by their place.

use kurbo::Rect;

use crate::grooves::{Boxes, Groove, GroovePlan, Stroke};

/// The strokes of a plan.
pub struct Strokes<'a> {
    all: Vec<Owned<'a>>,
    boxes: Boxes,
}

/// A stroke, and the groove it is of.
pub struct Owned<'a> {
    /// The groove.
    pub groove: &'a Groove,
    /// Its place in the plan.
    pub at: usize,
    /// The stroke.
    pub stroke: Stroke,
}

impl<'a> Strokes<'a> {
    /// The strokes of all grooves of a plan.
    pub fn new(plan: &'a GroovePlan) -> Self {
        let all: Vec<Owned<'_>> = plan
            .grooves
            .iter()
            .enumerate()
            .flat_map(|(at, groove)| {
                groove
                    .path
                    .iter()
                    .map(move |&stroke| Owned { groove, at, stroke })
            })
            .collect();
        let boxes = Boxes::new(all.iter().map(|owned| owned.stroke.bounds()));
        Self { all, boxes }
    }

    /// Every stroke, in the order of the plan.
    pub fn all(&self) -> &[Owned<'a>] {
        &self.all
    }

    /// The places of the strokes whose box comes within `reach` of an area, in the order of the plan.
    pub fn near(&self, area: Rect, reach: f64) -> Vec<usize> {
        let mut found = Vec::new();
        self.boxes
            .meeting(area.inflate(reach, reach), |at| found.push(at));
        found.sort_unstable();
        found
    }

    /// The stroke at a place.
    pub fn get(&self, at: usize) -> Option<&Owned<'a>> {
        self.all.get(at)
    }
}
