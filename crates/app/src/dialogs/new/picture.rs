//! The board that comes of an order, as a small picture: its wood, its holes, and whose they are.

use board::Role;
use egui::{Role as NodeRole, Sense, Ui, WidgetInfo, vec2};
use geometry::{Circle, Point};
use workshop::{Workpiece, player_look, tone_of};

use crate::camera::{Camera, Zoom};
use crate::color::screen;
use crate::painter::Pen;
use crate::palette::Palette;

/// Most width and height of the picture, in points.
const MOST: f32 = 330.0;
/// Height that is left for the words below it.
const WORDS: f32 = 110.0;
/// Room around the board, in points.
const MARGIN: f32 = 8.0;

/// The board from above; nothing in it can be pressed.
pub fn picture_ui(ui: &mut Ui, workpiece: &Workpiece) {
    let window = ui.ctx().content_rect().height();
    let side = ui
        .available_width()
        .min(MOST)
        .min((window - 150.0 - WORDS).max(120.0));
    let response = ui.allocate_response(vec2(side, side), Sense::hover());
    let holes = workpiece.layout().holes.len();
    response.widget_info(|| {
        WidgetInfo::labeled(
            NodeRole::Image,
            true,
            format!("The board to come: {holes} holes"),
        )
    });
    let board = workpiece.board();
    let looks: Vec<_> = (1..=board.players)
        .map(|player| player_look(board, player))
        .collect();
    let palette = Palette::of(ui.visuals()).with_players(&looks);
    let rim = Circle::new(Point::ORIGIN, board.blank.radius());
    let all = kurbo::Rect::from_center_size(Point::ORIGIN, (2.0 * rim.radius, 2.0 * rim.radius));
    let camera = Camera::with_margin(Zoom::Fit, response.rect, all, MARGIN);
    let mut pen = Pen::new(ui.painter_at(response.rect), camera, &palette);
    pen.round(
        rim,
        if board.wood.is_some() {
            screen(tone_of(board))
        } else {
            palette.wood
        },
    );
    pen.circle(rim, (1.5, palette.edge));
    for hole in &workpiece.layout().holes {
        let id = hole.name.id();
        let mouth = hole.mouth();
        if matches!(id.role(), Role::Home | Role::Start) {
            let ring = Circle::new(mouth.center, 1.75 * mouth.radius);
            pen.round(ring, palette.casing);
            pen.round(
                Circle::new(mouth.center, 1.65 * mouth.radius),
                palette.player(id.player()),
            );
        }
        pen.round(mouth, palette.bore);
    }
}
