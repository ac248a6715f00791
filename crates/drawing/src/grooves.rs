//! The center lines of the V-grooves, along which the bit runs.
//!
//! A groove is drawn as one line, not as two edges: a template or machine guides the V bit along that line, and the depth of
//! cut determines the width.

use board::{Board, Role};
use workshop::{Stroke, Workpiece};

use crate::{Item, Layer, Line, Shape};

/// Adds every stroke of the planned grooves.
pub fn grooves(workpiece: &Workpiece, items: &mut Vec<Item>) {
    let Some(plan) = workpiece.grooves() else {
        return;
    };
    let strokes = plan.grooves.iter().flat_map(|groove| &groove.path);
    items.extend(strokes.map(|stroke| Item {
        layer: Layer::Grooves,
        line: Line::Groove,
        shape: shape(stroke),
    }));
}

/// Radius of the ring grooved around a bore of this role and radius, mm; 0 if there is none.
pub fn ring(board: &Board, role: Role, radius: f64) -> f64 {
    let wanted = board.grooves.and_then(|grooves| {
        let rings = grooves.rings.filter(|rings| rings.of(role))?;
        Some(radius + rings.gap + grooves.width / 2.0)
    });
    wanted.unwrap_or_default()
}

/// The shape of a stroke of the bit.
fn shape(stroke: &Stroke) -> Shape {
    match *stroke {
        Stroke::Line(line) => Shape::Line(line),
        Stroke::Circle(circle) => Shape::Circle(circle),
        Stroke::Arc(arc) => Shape::Arc(arc),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Grooves, Rings};
    use geometry::PocketShape;

    #[test]
    fn lines_arcs_and_circles_are_drawn_as_such() {
        let wanted = Grooves {
            around_start: Some(3.0),
            rings: Some(Rings::default()),
            rim: Some(5.0),
            ..Grooves::default()
        };
        let mut board = Board {
            grooves: Some(wanted),
            ..Board::default()
        };
        board.pocket.shape = PocketShape::Arc;
        let mut items = Vec::new();
        grooves(&Workpiece::of(&board).unwrap(), &mut items);
        let count = |wanted: fn(&Shape) -> bool| {
            let shapes = items.iter().map(|item| &item.shape);
            shapes.filter(|shape| wanted(shape)).count()
        };
        assert_eq!(count(|shape| matches!(shape, Shape::Line(_))), 96 + 30);
        assert_eq!(count(|shape| matches!(shape, Shape::Circle(_))), 2);
        // Each pocket has two arcs about the pin and two round ends.
        assert_eq!(count(|shape| matches!(shape, Shape::Arc(_))), 24);
        assert_eq!(items.len(), 96 + 30 + 2 + 24);
    }
}
