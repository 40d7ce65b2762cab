package section_test

import (
	"testing"

	"latewood/woodphys/section"
)

// The numbers of one section with their bands: at most 5 microseconds.
func BenchmarkChange(b *testing.B) {
	w := sugarMaple()
	for _, c := range []struct {
		name string
		s    section.Section
	}{
		{"flatsawn", flatsawn(200*mm, 30*mm, 100*mm)},
		{"quartersawn", section.Section{Width: 0.2, Thickness: 0.03, PithX: -0.15}},
		{"offset", section.Section{Width: 0.2, Thickness: 0.03, PithX: -0.05, PithY: -0.08}},
		{"boxed heart", section.Section{Width: 0.1, Thickness: 0.1, PithX: 0.01}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := section.Change(c.s, about(14, 1), about(8, 0.5), w); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
