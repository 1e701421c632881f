"""The shape of a job file: what may be written where, as pydantic models."""

from fitwright.job.shape.file import FileShape, job_schema

__all__ = ["FileShape", "job_schema"]
