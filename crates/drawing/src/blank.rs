//! Features in the wood beside the bores: seams, mortises, screws from below, a storage recess and the cuts for its lid.

use kurbo::{Circle, Line as Segment, Point};
use workshop::{EdgePlace, TenonPlace, Workpiece};

use crate::recess::{around, recess_outlines};
use crate::{Item, Layer, Line, Shape};

/// Adds seams across the board, and the outlines of mortises, screws and the recess in it.
///
/// A seam is drawn as its chord across the disc. A tenon outside the board is reported as a finding and not drawn.
pub(crate) fn glue(workpiece: &Workpiece, items: &mut Vec<Item>) {
    let mut hidden = |shape| {
        items.push(Item {
            layer: Layer::Seams,
            line: Line::Hidden,
            shape,
        });
    };
    let radius = workpiece.board().blank.radius();
    for &seam in workpiece.seams() {
        let square = radius * radius - seam * seam;
        if square > 0.0 {
            let half = square.sqrt();
            let ends = (Point::new(-half, seam), Point::new(half, seam));
            hidden(Shape::Line(Segment::new(ends.0, ends.1)));
        }
    }
    let inside = |tenon: &TenonPlace| tenon.place != EdgePlace::Outside;
    for tenon in workpiece.tenons().iter().filter(|tenon| inside(tenon)) {
        around(&tenon.outline).into_iter().for_each(&mut hidden);
    }
    for screw in workpiece.screws() {
        let Circle { center, radius } = screw.circle;
        hidden(Shape::Circle(Circle::new(center, radius)));
    }
    for shape in recess_outlines(workpiece) {
        hidden(shape);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::Board;
    use board::{Build, ScrewCircle, Tenons};

    #[test]
    fn seams_run_from_edge_to_edge_and_hidden_cuts_are_outlined() {
        let mut board = Board::default();
        board.panel.build = Build::Halves;
        board.panel.tenons = Some(Tenons::default());
        board.screws = vec![ScrewCircle::default()];
        let mut items = Vec::new();
        glue(&Workpiece::of(&board).unwrap(), &mut items);
        let Shape::Line(seam) = items[0].shape else {
            panic!("no seam")
        };
        assert_eq!((seam.p0.x, seam.p1.x), (-320.0, 320.0));
        let circles = items
            .iter()
            .filter(|item| matches!(item.shape, Shape::Circle(_)));
        assert_eq!((items.len(), circles.count()), (1 + 3 * 4 + 4, 4));
    }
}
