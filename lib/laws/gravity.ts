/** Standard acceleration of gravity, m/s². Source: 3rd CGPM (1901). memory */
export const STANDARD_GRAVITY = 9.80665;
