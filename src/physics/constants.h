/* Numbers that this room and those to its right need. C17 without the X/Open extensions has no
 * M_PI. */
#ifndef PHYSICS_CONSTANTS_H
#define PHYSICS_CONSTANTS_H

#define PHYSICS_PI            3.14159265358979323846
#define PHYSICS_RADIANS       (PHYSICS_PI / 180.0) /* per degree */
#define PHYSICS_KELVIN        273.15               /* 0 C */
#define PHYSICS_J_PER_kWh     3.6e6
#define PHYSICS_GRAVITY       9.80665             /* m/s2, standard */
#define PHYSICS_AIR_VISCOSITY 1.81e-5             /* Pa s, dry air at 20 C */
#define PHYSICS_COS_85        0.08715574274765817 /* where low sun is held in quotients */

#endif
