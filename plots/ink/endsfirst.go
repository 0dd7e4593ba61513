package ink

// EndsFirst counts so many things in the order in which they get room for their names: the
// first, the last, then the middle before the rest, by halving.
func EndsFirst(n int) []int {
	var out []int
	seen := make([]bool, n)
	add := func(i int) {
		if i >= 0 && i < n && !seen[i] {
			seen[i] = true
			out = append(out, i)
		}
	}
	add(0)
	add(n - 1)
	for step := n - 1; step > 1; step = (step + 1) / 2 {
		for i := 0; i < n; i += max(1, step/2) {
			add(i)
		}
	}
	for i := range n {
		add(i)
	}
	return out
}
