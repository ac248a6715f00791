//! All strokes of a plan, indexed by position.

use kurbo::Rect;

use crate::grooves::{Boxes, Groove, GrooveKind, Stroke};

/// The strokes of a plan.
#[derive(Debug)]
pub struct Strokes {
    all: Vec<Owned>,
    boxes: Boxes,
}

/// A stroke and the groove it belongs to.
#[derive(Debug)]
pub struct Owned {
    /// The kind of groove.
    pub kind: GrooveKind,
    /// The groove's index in the plan.
    pub at: usize,
    /// The stroke.
    pub stroke: Stroke,
}

impl Strokes {
    /// The strokes of grooves, identified by their index among them.
    pub fn new(grooves: &[Groove]) -> Self {
        let of = |(at, groove): (usize, &Groove)| {
            let kind = groove.kind;
            let owned = move |&stroke: &Stroke| Owned { kind, at, stroke };
            groove.path.iter().map(owned).collect::<Vec<_>>()
        };
        let all: Vec<Owned> = grooves.iter().enumerate().flat_map(of).collect();
        let boxes = Boxes::new(all.iter().map(|owned| owned.stroke.bounds()));
        Self { all, boxes }
    }

    /// Every stroke, in the order of the plan.
    pub fn all(&self) -> &[Owned] {
        &self.all
    }

    /// The indices of the strokes whose box is within `reach` of an area, in the order of the plan.
    pub fn near(&self, area: Rect, reach: f64) -> Vec<usize> {
        let mut found = Vec::new();
        self.boxes
            .meeting(area.inflate(reach, reach), |at| found.push(at));
        found.sort_unstable();
        found
    }

    /// The stroke at an index.
    pub fn get(&self, at: usize) -> Option<&Owned> {
        self.all.get(at)
    }
}
