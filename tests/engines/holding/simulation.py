"""The second method of the supports: a rigid body on gripping feet, run to rest in a simulation (MuJoCo)."""

from __future__ import annotations

import numpy as np
import pytest

from axlewright.engines.holding.supports import Point


def simulated(
    weight: float, centre: Point, supports: list[Point], a: float, b: float, seconds: float = 1.5
) -> tuple[np.ndarray, bool]:
    """Square loads of three gripping feet on pedestals, run to rest, and whether the body stayed."""
    mujoco = pytest.importorskip("mujoco")
    down = np.array([np.tan(a), np.tan(b), -1.0])
    down *= 9.80665 / np.linalg.norm(down)
    r = 0.02
    feet = "".join(
        f'<geom name="foot{n}" type="sphere" size="{r}" pos="{p.x} {p.y} {p.z + r}" friction="1.5 0 0" mass="0"/>'
        for n, p in enumerate(supports)
    )
    under = "".join(
        f'<geom type="box" size="0.2 0.2 0.5" pos="{p.x} {p.y} {p.z - 0.5}" friction="1.5 0 0"/>' for p in supports
    )
    mass = weight / 9.80665
    xml = f"""<mujoco><option timestep="0.001" gravity="{down[0]} {down[1]} {down[2]}" cone="elliptic" impratio="10"/>
      <default><geom solref="0.004 1" solimp="0.99 0.999 0.0001" condim="3"/></default>
      <worldbody>{under}<body><freejoint/>
      <inertial pos="{centre.x} {centre.y} {centre.z}" mass="{mass}" diaginertia="{mass} {mass} {mass}"/>{feet}</body>
      </worldbody></mujoco>"""
    model = mujoco.MjModel.from_xml_string(xml)
    data = mujoco.MjData(model)
    while data.time < seconds:
        mujoco.mj_step(model, data)
    loads, force = np.zeros(3), np.zeros(6)
    for n in range(data.ncon):
        mujoco.mj_contactForce(model, data, n, force)
        foot = max(data.contact[n].geom1, data.contact[n].geom2) - len(supports)
        loads[foot] += force[0]
    return loads, bool(np.abs(data.qpos[4:6]).max() < 0.02)
