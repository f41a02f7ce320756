"""Whether a picture is too dark, too bright or too blurred to be trusted."""

import cv2
import numpy as np

from lastbolt.vision.outcome import Image
from lastbolt.vision.scale import within

_WORK_EDGE_PX = 800
_DARK, _BURNT, _BLUNT = 38.0, 0.22, 3.0


def quality_doubts(image: Image) -> list[str]:
    """Sentences about the light and the sharpness; none for a usable picture."""
    small, _ = within(image, _WORK_EDGE_PX)
    grey = cv2.cvtColor(small, cv2.COLOR_RGB2GRAY)
    doubts = []
    if float(np.percentile(grey, 75)) < _DARK:
        doubts.append("the picture is dark; bring light and take it again")
    if float((grey >= 254).mean()) > _BURNT:
        doubts.append("much of the picture is burnt out by glare; move the lamp")
    if float(np.percentile(np.abs(cv2.Laplacian(grey, cv2.CV_32F)), 98)) < _BLUNT:
        doubts.append("the picture is blurred; hold still and take it again")
    return doubts
