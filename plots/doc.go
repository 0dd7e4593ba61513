// Package plots will draw the tank, the arm and the needle error. It draws
// nothing yet: pictures come after the numbers they show.
package plots
