"""The hang: against a rigid-body simulation and a general minimiser, equilibrium, and laws."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from axlewright.engines.holding.supports import Point
from axlewright.engines.lifting.hang import Hang, Line, hang
from axlewright.engines.limits import OutOfRange

FEW = settings(max_examples=30, deadline=None)
EYES = ((-0.31, -0.22, 0.02), (0.27, -0.19, 0.0), (0.29, 0.24, 0.03), (-0.26, 0.21, -0.02))
CENTRE = (0.03, -0.02, -0.14)


def legs_of(
    lengths: tuple[float, ...], ea: float = 2e6, eyes: tuple[tuple[float, ...], ...] = EYES
) -> tuple[Line, ...]:
    return tuple(Line((Point(*eye),), length, ea / length) for eye, length in zip(eyes, lengths, strict=False))


def simulated(weight: float, centre: tuple[float, ...], lines: tuple[Line, ...]) -> tuple[np.ndarray, np.ndarray]:
    """Tensions and the real up in the body, of a damped rigid body on pulling-only tendons, run to rest (MuJoCo)."""
    mujoco = pytest.importorskip("mujoco")
    mass, top = weight / 9.80665, 1.0
    sites = "".join(
        f'<site name="e{n}_{k}" pos="{eye.x} {eye.y} {eye.z}"/>' for n, line in enumerate(lines) for k, eye in enumerate(line.eyes)
    )  # fmt: skip
    tendons = ""
    for n, line in enumerate(lines):
        ends = [f'<site site="e{n}_{k}"/>' for k in range(len(line.eyes))]
        path = f"{ends[0]}<site site='hook'/>" + (ends[1] if len(ends) > 1 else "")
        tendons += f'<spatial name="l{n}" springlength="0 {line.length}" stiffness="{line.stiffness}">{path}</spatial>'
    low = (
        top - min(float(line.length) for line in lines) / (3 if len(lines[0].eyes) == 1 else 2.5) - max(0.0, centre[2])
    )
    xml = f"""<mujoco><option timestep="0.0005" gravity="0 0 -9.80665" integrator="implicit"/>
      <worldbody><site name="hook" pos="0 0 {top}"/>
      <body pos="{-centre[0]} {-centre[1]} {low}"><joint type="free" damping="{mass}"/>
      <inertial pos="{centre[0]} {centre[1]} {centre[2]}" mass="{mass}" diaginertia="{mass / 30} {mass / 30} {mass / 30}"/>
      {sites}</body></worldbody><tendon>{tendons}</tendon></mujoco>"""
    model = mujoco.MjModel.from_xml_string(xml)
    data = mujoco.MjData(model)
    for _ in range(40_000):
        mujoco.mj_step(model, data)
        if data.time > 4 and np.abs(data.qvel).max() < 1e-7:
            break
    long = np.array([data.ten_length[n] for n in range(len(lines))])
    pulls = np.array([float(line.stiffness) for line in lines]) * np.maximum(
        long - [float(line.length) for line in lines], 0
    )
    return pulls, data.xmat[1].reshape(3, 3)[2]  # the world's up, in the body's axes


@pytest.mark.parametrize(
    ("centre", "lines"),
    [
        ((0.05, 0.0, -0.13), legs_of((0.62, 0.55), eyes=((-0.28, 0, 0), (0.24, 0, 0)))),
        ((0.02, 0.03, -0.11), legs_of((0.62, 0.55), eyes=((-0.28, 0, 0.01), (0.24, 0, 0.04)))),
        ((0.04, 0.02, -0.18), legs_of((0.7,), eyes=((0.0, 0.0, 0.0),))),
        (CENTRE, legs_of((0.8, 0.78, 0.82))),
        ((0.01, 0.0, -0.22), (Line((Point(-0.28, 0, 0), Point(0.28, 0, 0)), 1.3, 8e5),)),
    ],
    ids=["two legs", "two legs, centre out of plane", "one leg", "three legs", "running sling"],
)
def test_tensions_and_attitude_are_those_of_a_simulation(centre: tuple[float, ...], lines: tuple[Line, ...]) -> None:
    pulls, up = simulated(3100.0, centre, lines)
    got = hang(3100.0, Point(*centre), lines)
    assert np.allclose(got.tensions, pulls, rtol=2e-3, atol=3)
    assert np.allclose([got.up_x, got.up_y, got.up_z], up, atol=1e-3)


@FEW
@given(
    lengths=st.tuples(*[st.floats(0.6, 1.0)] * 4), count=st.integers(1, 4), ea=st.sampled_from([3e5, 4e6]),
    x=st.floats(-0.15, 0.15), y=st.floats(-0.12, 0.12), z=st.floats(-0.3, 0.05),
)  # fmt: skip
def test_no_lower_energy_is_found_beside_it(
    lengths: tuple[float, ...], count: int, ea: float, x: float, y: float, z: float
) -> None:
    """A general minimiser, started where the hang came to rest and beside it, finds nothing lower there."""
    from scipy.optimize import minimize

    lines, centre = legs_of(lengths[:count], ea), np.array([x, y, z])
    got = hang(2900.0, Point(x, y, z), lines)
    eyes, long = np.array([[p.x, p.y, p.z] for line in lines for p in line.eyes]), np.array(lengths[:count])

    def energy(h: np.ndarray) -> float:
        over = np.maximum(np.linalg.norm(h - eyes, axis=1) - long, 0)
        return float((0.5 * ea / long * over**2).sum() - 2900 * np.linalg.norm(h - centre)) / 1e3

    here = np.array([got.hook_x, got.hook_y, got.hook_z], float)
    for off in ([0, 0, 0], [2e-3, 0, 0], [0, -2e-3, 1e-3]):
        found = minimize(
            energy, here + off, method="Nelder-Mead", options={"xatol": 1e-10, "fatol": 1e-13, "maxiter": 4000}
        )
        assert found.fun >= energy(here) - 1e-7
    assert got.least_stiffness > 0


@FEW
@given(lengths=st.tuples(*[st.floats(0.6, 1.0)] * 3), x=st.floats(-0.1, 0.1), y=st.floats(-0.1, 0.1))
def test_forces_and_moments_balance(lengths: tuple[float, ...], x: float, y: float) -> None:
    centre = np.array([x, y, -0.15])
    got = hang(2900.0, Point(*centre), legs_of(lengths))
    hook, up = np.array([got.hook_x, got.hook_y, got.hook_z], float), np.array([got.up_x, got.up_y, got.up_z], float)
    total, turning = -2900 * up, np.cross(centre, -2900 * up)
    for eye, pull in zip(EYES, got.tensions, strict=False):
        force = (hook - eye) / np.linalg.norm(hook - eye) * float(pull)
        total, turning = total + force, turning + np.cross(eye, force)
    assert np.allclose(total, 0, atol=0.01)
    assert np.allclose(turning, 0, atol=0.01)
    assert np.allclose(hook - centre, up * float(got.drop))  # the centre of gravity straight under the hook


def flipped(eyes: tuple[tuple[float, ...], ...]) -> tuple[tuple[float, ...], ...]:
    return tuple((x, -y, z) for x, y, z in eyes)


@FEW
@given(lengths=st.tuples(*[st.floats(0.65, 0.95)] * 4), y=st.floats(-0.1, 0.1))
def test_mirror_image_gives_the_mirror_result(lengths: tuple[float, ...], y: float) -> None:
    one = hang(2900.0, Point(0.02, y, -0.15), legs_of(lengths, 5e5))
    other = hang(2900.0, Point(0.02, -y, -0.15), legs_of(lengths, 5e5, flipped(EYES)))
    assert np.allclose(one.tensions, other.tensions, atol=1e-4)
    assert one.up_y == pytest.approx(-float(other.up_y), abs=1e-6)


@FEW
@given(k=st.floats(0.3, 4), lengths=st.tuples(*[st.floats(0.65, 0.95)] * 3))
def test_scale_by_k(k: float, lengths: tuple[float, ...]) -> None:
    def at(scale: float) -> Hang:
        lines = tuple(
            Line((Point(*(scale * c for c in eye)),), scale * length, 4e6)
            for eye, length in zip(EYES, lengths, strict=False)
        )
        return hang(2900.0 * scale, Point(*(scale * c for c in CENTRE)), lines)

    one, other = at(1.0), at(k)
    assert other.tilt == pytest.approx(float(one.tilt), abs=1e-7)
    assert np.allclose(np.array(other.tensions), k * np.array(one.tensions), atol=1e-3 * k)


def test_turning_the_body_about_its_up_changes_nothing() -> None:
    turn = 0.7
    spin = np.array([[np.cos(turn), -np.sin(turn), 0], [np.sin(turn), np.cos(turn), 0], [0, 0, 1]])
    one = hang(2900.0, Point(*CENTRE), legs_of((0.8, 0.75, 0.78)))
    other = hang(
        2900.0, Point(*(spin @ CENTRE)), legs_of((0.8, 0.75, 0.78), eyes=tuple(tuple(spin @ e) for e in EYES[:3]))
    )
    assert np.allclose(one.tensions, other.tensions)
    assert one.tilt == pytest.approx(float(other.tilt))


def test_draws_are_each_their_own_hang() -> None:
    xs = np.array([-0.05, 0.0, 0.05, 0.4])
    many = hang(np.array([1e3, 2e3, 3e3, 4e3]), Point(xs, 0.01, -0.15), legs_of((0.8, 0.78, 0.82)))
    for n, x in enumerate(xs):
        one = hang((n + 1) * 1e3, Point(float(x), 0.01, -0.15), legs_of((0.8, 0.78, 0.82)))
        assert np.allclose([t[n] for t in many.tensions], one.tensions, atol=1e-3)
        assert [bool(s[n]) for s in many.slack] == [bool(s) for s in one.slack]


@pytest.mark.parametrize(("below", "holds"), [(0.05, True), (-0.05, False), (-0.001, False)])
def test_a_balanced_start_is_no_hang(below: float, holds: bool) -> None:
    """Centre of gravity straight between two eyes: all pulls balance above the eyes too, and it does not stay."""
    got = hang(2900.0, Point(0.0, 0.0, -below), legs_of((0.6, 0.6), eyes=((-0.3, 0, 0), (0.3, 0, 0))))
    assert bool(got.wanted_holds) is holds
    if not holds:
        assert np.degrees(got.tilt) == pytest.approx(180, abs=1e-3)


def test_a_hair_off_balance_says_the_same() -> None:
    got = hang(
        2900.0, Point(0.0, np.array([0.0, 1e-9, 1e-4]), 0.1), legs_of((0.6, 0.6), eyes=((-0.3, 0, 0), (0.3, 0, 0)))
    )
    assert not got.wanted_holds.any()


@FEW
@given(depth=st.floats(0.05, 0.4), half=st.floats(0.15, 0.4))
def test_a_running_sling_holds_level_below_its_threshold_only(depth: float, half: float) -> None:
    above_eyes = 0.6
    threshold = half**2 / above_eyes
    assume(abs(depth / threshold - 1) > 0.05)
    line = Line((Point(-half, 0, 0), Point(half, 0, 0)), 2 * np.hypot(half, above_eyes), 1e8)
    got = hang(2900.0, Point(0.0, 0.0, -depth), (line,))
    assert bool(np.degrees(got.tilt) < 0.5) is bool(depth > threshold)


def test_side_pull_that_slackens_does_so_in_the_hang_itself() -> None:
    """Lean gravity by the angle found: the leg named, and no other, is just slack."""
    lines, centre = legs_of((0.9, 0.9, 0.9), 4e7), np.array([0.02, 0.01, 0.10])
    got = hang(2900.0, Point(*centre), lines)
    up, hook = np.array([got.up_x, got.up_y, got.up_z], float), np.array([got.hook_x, got.hook_y, got.hook_z], float)
    units = [(hook - e) / np.linalg.norm(hook - e) for e in np.array(EYES[:3])]
    gone = int(got.slackens_first) - 1
    i, j = (n for n in range(3) if n != gone)
    normal = np.cross(units[i], units[j])
    normal *= np.sign(normal @ units[gone]) / np.linalg.norm(normal)
    pulled = up * np.cos(float(got.slackening_angle)) - (normal - (normal @ up) * up) / np.linalg.norm(normal - (normal @ up) * up) * np.sin(float(got.slackening_angle))  # fmt: skip
    shares = np.linalg.solve(np.array(units).T, pulled)
    assert shares[gone] == pytest.approx(0, abs=1e-6)
    assert min(shares[i], shares[j]) > 0.05


@pytest.mark.parametrize(
    ("centre", "lines"),
    [
        (CENTRE, ()),
        (CENTRE, legs_of((0.8, 0.8, 0.8, 0.8)) + legs_of((0.8,))),
        (CENTRE, legs_of((0.2, 0.2))),  # they meet at no hook
        (CENTRE, (Line((Point(-0.3, 0, 0), Point(0.3, 0, 0)), 0.5, 1e6),)),
        (CENTRE, (Line((Point(0, 0, 0),), -0.8, 1e6),)),
        ((np.nan, 0, 0), legs_of((0.8,))),
        (CENTRE, (Line((), 0.8, 1e6),)),
    ],
)
def test_what_cannot_hang_is_refused(centre: tuple[float, ...], lines: tuple[Line, ...]) -> None:
    with pytest.raises(OutOfRange):
        hang(2900.0, Point(*centre), lines)
