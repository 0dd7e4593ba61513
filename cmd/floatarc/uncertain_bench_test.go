package main

import "testing"

// BenchmarkUncertain draws rigs about the points of built-in ones.
func BenchmarkUncertain(b *testing.B) {
	for _, name := range []string{"demo", "workboat"} {
		b.Run(name, func(b *testing.B) {
			o := &options{units: "metric"}
			j, rel, p, err := o.loadPlan(name, attitude{}, planFlags{method: atMarks, neverOver: quarter})
			if err != nil {
				b.Fatal(err)
			}
			s, err := j.pointsSheet(rel, p, planFlags{method: atMarks, neverOver: quarter})
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, err := s.uncertainty(uncertainFlags{asked: true, usual: true, count: 1000, seed: 1}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
