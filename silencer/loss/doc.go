// Package loss gives pressure losses of pipes and fittings: friction factors, minor losses, stated silencer losses.
package loss
