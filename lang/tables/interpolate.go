package tables

import "math"

// linear draws a straight line through two points.
func linear(x0, y0, x1, y1, x float64) float64 {
	return y0 + (y1-y0)*(x-x0)/(x1-x0)
}

// logLog draws a straight line through two points on logarithmic axes.
func logLog(x0, y0, x1, y1, x float64) float64 {
	return math.Exp(linear(math.Log(x0), math.Log(y0), math.Log(x1), math.Log(y1), math.Log(x)))
}

// point is one pair of a curve.
type point struct{ x, y float64 }

// along interpolates on a curve whose x rises; outside it the end value holds.
func along(curve []point, x float64) float64 {
	first, last := curve[0], curve[len(curve)-1]
	switch {
	case x <= first.x:
		return first.y
	case x >= last.x:
		return last.y
	}
	i := 1
	for curve[i].x < x {
		i++
	}
	return linear(curve[i-1].x, curve[i-1].y, curve[i].x, curve[i].y, x)
}
