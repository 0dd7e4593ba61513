package tanks

import "testing"

// BenchmarkLoad reads a built-in rig and puts its sender into the tank, the swing
// of the whole float between the walls included.
func BenchmarkLoad(b *testing.B) {
	for _, name := range []string{"demo", "workboat", "quad", "sprayer"} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := Load(name, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
