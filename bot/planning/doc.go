// Package planning works out orders, yields and room on what a crew has, and says it in words.
package planning
