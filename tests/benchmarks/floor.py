"""The floor: the same framework, a signature check and one durable two-row transaction, nothing else."""

from __future__ import annotations

import json
import os
import time

from fastapi import FastAPI, Request
from sqlalchemy import text
from starlette.concurrency import run_in_threadpool
from starlette.responses import JSONResponse, Response

from service.edge.delivery import Delivery
from service.edge.profile_proofs import StandardWebhooks
from service.edge.verify import verify
from service.storage.engine import open_engine, writing

ENGINE = open_engine(os.environ["FLOOR_DATABASE"])
SIGNING = os.environ["FLOOR_SIGNING"]
WAY = (StandardWebhooks(kind="standard_webhooks"),)

app = FastAPI(openapi_url=None)

with writing(ENGINE) as _connection:
    for _table in ("floor_in", "floor_out"):
        _connection.execute(text(f"CREATE TABLE {_table} (id TEXT PRIMARY KEY, body TEXT NOT NULL)"))


@app.get("/health")
def health() -> dict[str, str]:
    """It answers."""
    return {"status": "ok"}


def _keep(delivery: Delivery) -> Response:
    from datetime import UTC, datetime

    verify(delivery, "json", WAY, lambda name: SIGNING, datetime.fromtimestamp(time.time(), UTC))
    document = json.loads(delivery.body)
    row = {"id": delivery.headers["webhook-id"], "body": document["text"]}
    with writing(ENGINE) as connection:
        connection.execute(text("INSERT INTO floor_in (id, body) VALUES (:id, :body)"), row)
        connection.execute(text("INSERT INTO floor_out (id, body) VALUES (:id, :body)"), row)
    return JSONResponse({"status": "ok"})


@app.post("/hooks/demo/standard")
async def take(request: Request) -> Response:
    """Check, keep, answer."""
    headers = {name.lower(): value for name, value in request.headers.items()}
    delivery = Delivery("POST", "", b"", headers, await request.body())
    return await run_in_threadpool(_keep, delivery)
