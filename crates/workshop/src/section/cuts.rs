//! One section: everything that a plane meets.

use board::{Board, Footing, Hole, HoleName, Layout, PieceKind};
use geometry::Point;

use super::form::Form;
use super::plane::{Keep, Plane, View, clipped};
use super::revolved::Revolved;
use super::{Body, BodyKind, Cavity, CavityKind, Face, Section};
use crate::blank::panel::EdgePlace;
use crate::filling::is_filled;
use crate::grooves::section::cut_grooves;
use crate::recess::{prism, recess_outline};
use crate::{GroovePlan, Workpiece};
use crate::{base, blank, bores, recess};

/// Distance beyond the board to which straight bodies are followed, mm.
const PAST: f64 = 1.0;
/// An axis this close to the line where two half-planes meet counts as on it, mm.
const ON_FOLD: f64 = 1e-9;
/// Width at which a foot is drawn, mm, since the document does not give it.
const FOOT: f64 = 20.0;

/// Everything that a plane meets.
pub fn cut(workpiece: &Workpiece, plane: Plane) -> Section {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let reach = board.blank.radius() + plane.origin.to_vec2().hypot() + PAST;
    let cutter = Cutter {
        workpiece,
        board,
        views: plane.views(),
        reach,
    };
    let outline = cutter
        .round(&blank::section::blank(board))
        .into_iter()
        .next();
    let outline = outline.unwrap_or_default();
    let mut cavities = cutter.bores(layout);
    if let Some(plan) = workpiece.grooves() {
        cavities.extend(cutter.grooves(plan));
    }
    cavities.extend(cutter.below());
    cavities.extend(cutter.hidden());
    let mut bodies = cutter.base();
    bodies.extend(cutter.lid(&outline));
    bodies.extend(cutter.pieces(layout));
    Section {
        plane,
        outline,
        cavities,
        bodies,
    }
}

/// The feet of a base, seen from the side, one on either side of the pin.
pub fn feet(board: &Board) -> Vec<Body> {
    let standing = board.base.filter(|base| base.height > 0.0);
    let Some((base, Footing::Feet { circle, .. })) = standing.map(|base| (base, base.footing))
    else {
        return Vec::new();
    };
    let (top, bottom) = (-board.blank.thickness, -board.blank.thickness - base.height);
    let foot = |middle: f64| {
        let (low, high) = (middle - FOOT / 2.0, middle + FOOT / 2.0);
        let corners = [(low, top), (high, top), (high, bottom), (low, bottom)];
        Body {
            kind: BodyKind::Foot,
            hole: None,
            face: Face::Corners(corners.map(Point::from).into()),
        }
    };
    vec![foot(-circle / 2.0), foot(circle / 2.0)]
}

/// The data to cut a board with: the views of its half-planes, and how far out to look.
struct Cutter<'a> {
    workpiece: &'a Workpiece,
    board: &'a Board,
    views: Vec<View>,
    reach: f64,
}

impl Cutter<'_> {
    /// The cuts of a round body; one piece where its axis is on the line where the half-planes meet.
    fn round(&self, round: &Revolved) -> Vec<Vec<Point>> {
        let views = self.views_of(round.center);
        views.iter().filter_map(|view| round.cut(view)).collect()
    }

    /// The planes to cut a round body with. Where its axis is on the line where two planes meet, each shows only half of it, so
    /// one plane shows the whole.
    fn views_of(&self, center: Point) -> Vec<View> {
        match self.views.as_slice() {
            [first, _] if (center - first.at(0.0)).hypot() <= ON_FOLD => vec![View {
                keep: Keep::All,
                ..*first
            }],
            views => views.to_vec(),
        }
    }

    /// The cuts of a body of any form.
    fn form(&self, form: &Form) -> Vec<Vec<Point>> {
        match form {
            Form::Round(round) => self.round(round),
            Form::Straight(_) | Form::Leaning(_) => {
                let cut = |view: &View| form.cut(view, self.reach);
                self.views.iter().filter_map(cut).collect()
            }
        }
    }

    /// The holes that the planes cut, each with the outlines of its bore.
    fn cut_holes<'l>(&self, holes: &'l [Hole]) -> Vec<(&'l Hole, Vec<Vec<Point>>)> {
        let spur = self.board.bores.spur;
        let met = |hole: &&Hole| {
            // A spur may be wider than its bore.
            let reach = hole.bore.radius().max(spur);
            self.views
                .iter()
                .any(|view| view.see(hole.center).1 < reach)
        };
        let cut = |hole| (hole, self.round(&bores::section::bore(hole, spur)));
        holes.iter().filter(met).map(cut).collect()
    }

    /// The bores that are cut; one cut on both half-planes gives two cavities.
    fn bores(&self, layout: &Layout) -> Vec<Cavity> {
        let holes = self.cut_holes(&layout.holes).into_iter();
        let bores = holes.flat_map(|(hole, parts)| {
            parts.into_iter().map(|corners| Cavity {
                kind: CavityKind::Bore,
                hole: Some(hole.name),
                corners,
            })
        });
        bores.collect()
    }

    /// The grooves that are cut, with the shape the bit leaves.
    fn grooves(&self, plan: &GroovePlan) -> Vec<Cavity> {
        let cut = |view| cut_grooves(self.board, plan, view, self.reach);
        let cut: Vec<Vec<Point>> = self.views.iter().flat_map(cut).collect();
        cavities(CavityKind::Groove, cut)
    }

    /// The recess, and the cuts for its lid.
    fn below(&self) -> Vec<Cavity> {
        let thickness = self.board.blank.thickness;
        let recess = self.board.recess.as_ref();
        let recess = recess.map(|cut| prism(recess_outline(cut), cut.depth, thickness).into());
        let lid = recess::section::place_of_lid(self.workpiece);
        let of = |kind, form: Option<Form>| {
            let cut = form.map(|form| self.form(&form));
            cavities(kind, cut.unwrap_or_default())
        };
        let mut below = of(CavityKind::Recess, recess);
        below.extend(of(CavityKind::Lid, lid));
        below
    }

    /// Screws, and mortises.
    fn hidden(&self) -> Vec<Cavity> {
        let thickness = self.board.blank.thickness;
        let screws = self.workpiece.screws().iter();
        let screws = screws.flat_map(|screw| self.form(&screw.prism(thickness).into()));
        let size = self.board.panel.tenons.unwrap_or_default();
        let tenons = self.workpiece.tenons().iter();
        let mortises = tenons
            .filter(|tenon| tenon.place != EdgePlace::Outside)
            .flat_map(|tenon| self.form(&tenon.mortise(&size).into()));
        let mut hidden = cavities(CavityKind::Screw, screws.collect());
        hidden.extend(cavities(CavityKind::Mortise, mortises.collect()));
        hidden
    }

    /// The base below the board, where the plane meets it.
    fn base(&self) -> Vec<Body> {
        let Some(base) = self.board.base else {
            return Vec::new();
        };
        match base.footing {
            Footing::Round { diameter } => {
                let disc = base::section::turntable(self.board, diameter, base.height);
                bodies(BodyKind::Turntable, None, self.round(&disc))
            }
            Footing::Feet { .. } => Vec::new(),
        }
    }

    /// The lid, clipped to the board.
    fn lid(&self, outline: &[Point]) -> Vec<Body> {
        let places = outline.iter().map(|corner| corner.x);
        let low = places.clone().fold(f64::INFINITY, f64::min);
        let high = places.fold(f64::NEG_INFINITY, f64::max);
        let cut = recess::section::lid(self.workpiece).map(|lid| self.form(&lid));
        let cut = cut.unwrap_or_default().into_iter().map(|corners| {
            let corners = clipped(&corners, |at| at.x - low);
            clipped(&corners, |at| high - at.x)
        });
        let cut = cut.filter(|corners| corners.len() >= 3);
        bodies(BodyKind::Lid, None, cut.collect())
    }

    /// The contents of the bores that are cut, hole by hole, each drawn over what it stands in.
    fn pieces(&self, layout: &Layout) -> Vec<Body> {
        let seats = self.cut_holes(layout.seats(self.board));
        let cut = seats.into_iter().filter(|(_, parts)| !parts.is_empty());
        let standing = cut.flat_map(|(hole, parts)| {
            let resin = parts.iter().filter_map(|bore| self.resin(hole, bore));
            let mut standing: Vec<Body> = resin.collect();
            standing.extend(self.stands(hole));
            standing
        });
        standing.collect()
    }

    /// Resin in a bore, up to its level; `None` if it is not filled.
    fn resin(&self, hole: &Hole, bore: &[Point]) -> Option<Body> {
        let filling = self.board.filling?;
        let filled = is_filled(self.board, &filling, hole.bore);
        let corners = clipped(bore, |at| -filling.below_top - at.y);
        (filled && corners.len() >= 3).then_some(Body {
            kind: BodyKind::Resin,
            hole: Some(hole.name),
            face: Face::Corners(corners),
        })
    }

    /// The contents of a bore: a piece, and its insert.
    fn stands(&self, hole: &Hole) -> Vec<Body> {
        let board = self.board;
        let has_magnet = board.piece.kind == PieceKind::Magnet;
        let of_magnet = |form: Option<Revolved>| form.filter(|_| has_magnet);
        let forms = [
            (
                BodyKind::Insert,
                of_magnet(Some(bores::section::insert(board, hole))),
            ),
            (BodyKind::Piece, bores::section::piece(board, hole)),
            (
                BodyKind::Magnet,
                of_magnet(bores::section::magnet(board, hole)),
            ),
        ];
        let forms = forms.into_iter();
        let faces = |(kind, form): (BodyKind, Option<Revolved>)| {
            form.map_or_else(Vec::new, |form| self.faces(kind, hole.name, &form))
        };
        forms.flat_map(faces).collect()
    }

    /// A round body in a hole: a disc where it looks like one, otherwise its outline on each half-plane.
    fn faces(&self, kind: BodyKind, hole: HoleName, round: &Revolved) -> Vec<Body> {
        let views = self.views_of(round.center);
        let disc = views.iter().find_map(|view| round.disc(view));
        if let Some(disc) = disc {
            return vec![Body {
                kind,
                hole: Some(hole),
                face: Face::Disc(disc),
            }];
        }
        bodies(kind, Some(hole), self.round(round))
    }
}

/// Cuts as cavities of a kind.
fn cavities(kind: CavityKind, cut: Vec<Vec<Point>>) -> Vec<Cavity> {
    let cut = cut.into_iter();
    cut.map(|corners| Cavity {
        kind,
        hole: None,
        corners,
    })
    .collect()
}

/// Cuts as bodies of a kind.
fn bodies(kind: BodyKind, hole: Option<HoleName>, cut: Vec<Vec<Point>>) -> Vec<Body> {
    let cut = cut.into_iter().map(Face::Corners);
    cut.map(|face| Body { kind, hole, face }).collect()
}
