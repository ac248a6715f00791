//! A hand at a picture, for tests: it points, drags, turns the wheel, and takes photographs.

use egui::{Event, Key, Modifiers, MouseWheelUnit, PointerButton, Pos2, Rect, Theme, Ui};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use testkit::Soft;

use crate::theme;

/// A picture of a state `B` on a bench of its own, and a hand at it.
pub struct Hand<B: 'static> {
    pub harness: Harness<'static, B>,
    /// The picture's name for screen readers.
    name: &'static str,
}

impl<B> Hand<B> {
    pub fn under(
        theme: Theme,
        size: [f32; 2],
        bench: B,
        name: &'static str,
        show: fn(&mut B, &mut Ui),
    ) -> Self {
        let harness = Harness::builder()
            .with_size(size)
            .with_theme(theme)
            .with_max_steps(40)
            .with_render_cursor(false)
            .renderer(Soft::default())
            .build_ui_state(
                move |ui, bench: &mut B| {
                    theme::install(ui.ctx());
                    show(bench, ui);
                },
                bench,
            );
        let mut hand = Self { harness, name };
        hand.harness.run_steps(3);
        hand
    }

    pub fn bench(&self) -> &B {
        self.harness.state()
    }

    pub fn frame(&self) -> Rect {
        self.harness.get_by_label(self.name).rect()
    }

    pub fn focus(&mut self) {
        self.harness.get_by_label(self.name).focus();
        self.harness.run_steps(2);
    }

    pub fn hover(&mut self, at: Pos2) {
        self.harness.hover_at(at);
        self.harness.run_steps(2);
    }

    pub fn click(&mut self, at: Pos2) {
        self.harness.hover_at(at);
        self.harness.drag_at(at);
        self.drop(at);
    }

    /// Drags without letting go.
    pub fn take(&mut self, from: Pos2, to: Pos2) {
        self.harness.hover_at(from);
        self.harness.drag_at(from);
        self.harness.hover_at(from.lerp(to, 0.5));
        self.harness.hover_at(to);
        self.harness.run_steps(5);
    }

    pub fn drop(&mut self, at: Pos2) {
        self.harness.drop_at(at);
        self.harness.run();
    }

    pub fn drag(&mut self, from: Pos2, to: Pos2) {
        self.take(from, to);
        self.drop(to);
    }

    pub fn double_click(&mut self, at: Pos2) {
        self.harness.hover_at(at);
        for pressed in [true, false, true, false] {
            self.harness.input_mut().events.push(Event::PointerButton {
                pos: at,
                button: PointerButton::Primary,
                pressed,
                modifiers: Modifiers::NONE,
            });
        }
        self.harness.run_steps(3);
    }

    pub fn key(&mut self, key: Key) {
        self.harness.key_press(key);
        self.harness.run_steps(2);
    }

    /// Holds keys such as Shift from now on.
    pub fn hold(&mut self, modifiers: Modifiers) {
        self.harness.event(Event::ModifiersChanged(modifiers));
        self.harness.run_steps(2);
    }

    pub fn wheel(&mut self, lines: f32) {
        self.harness.event(Event::MouseWheel {
            unit: MouseWheelUnit::Line,
            delta: egui::vec2(0.0, lines),
            phase: egui::TouchPhase::Move,
            source: egui::MouseWheelSource::Unknown,
            modifiers: Modifiers::NONE,
        });
        self.harness.run_steps(30);
    }

    pub fn press(&mut self, label: &str) {
        self.harness.get_by_label(label).click();
        self.harness.run();
    }

    pub fn says(&self, words: &str) -> bool {
        let mut found = self.harness.query_all_by_label_contains(words);
        found.next().is_some()
    }
}
