package readings

import "math"

// whitener weighs deviations by what they may be while all is well: the meter's
// tolerance of each reading by itself, and what moves many readings together,
// such as a source's volts or a load's draw. It is the lower factor of their
// covariance (Cholesky), so that whitened deviations are of one size and free of
// each other.
type whitener struct {
	size  int
	lower []float64 // by rows, size x size
}

// newWhitener takes the standard deviation of each reading and, for each thing
// that moves several, what one standard deviation of it does to them.
func newWhitener(sigma []float64, together [][]float64) *whitener {
	n := len(sigma)
	w := &whitener{n, make([]float64, n*n)}
	for i, s := range sigma {
		w.lower[i*n+i] = s * s
	}
	for _, column := range together {
		w.add(column)
	}
	w.factor()
	return w
}

// add adds a column's products to the lower half of the covariance.
func (w *whitener) add(column []float64) {
	for i, a := range column {
		if a == 0 {
			continue
		}
		row := w.lower[i*w.size : i*w.size+i+1]
		for j := range row {
			row[j] += a * column[j]
		}
	}
}

func (w *whitener) factor() {
	n := w.size
	for j := range n {
		for i := j; i < n; i++ {
			sum := w.lower[i*n+j]
			for k, a := range w.lower[i*n : i*n+j] {
				sum -= a * w.lower[j*n+k]
			}
			if i == j {
				w.lower[j*n+j] = math.Sqrt(max(sum, tiny))
			} else {
				w.lower[i*n+j] = sum / w.lower[j*n+j]
			}
		}
	}
}

// tiny keeps a root from nothing where rounding took all digits.
const tiny = 1e-18

// of whitens a deviation.
func (w *whitener) of(v []float64) []float64 {
	out := make([]float64, w.size)
	for i := range out {
		sum := v[i]
		for k, a := range w.lower[i*w.size : i*w.size+i] {
			sum -= a * out[k]
		}
		out[i] = sum / w.lower[i*w.size+i]
	}
	return out
}

func minus(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] - b[i]
	}
	return out
}

func times(a []float64, by float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] * by
	}
	return out
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}
