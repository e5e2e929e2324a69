"""The first tables: documents and their changes, plans, settings, tasks, and the doors."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "attempt",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("where", sa.String(length=200), nullable=False),
        sa.Column("at", sa.String(32), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_attempt")),
    )
    op.create_index(op.f("ix_attempt_where_at"), "attempt", ["where", "at"], unique=False)
    op.create_table(
        "change",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(32), nullable=False),
        sa.Column("who", sa.String(length=100), nullable=False),
        sa.Column("what", sa.String(length=10), nullable=False),
        sa.Column("kind", sa.String(length=10), nullable=False),
        sa.Column("row", sa.String(length=100), nullable=False),
        sa.Column("before", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("after", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("undone_at", sa.String(32), nullable=True),
        sa.CheckConstraint("kind in ('kitchen', 'recipe', 'day')", name=op.f("ck_change_kind")),
        sa.CheckConstraint(
            "what in ('add', 'change', 'remove', 'undo')", name=op.f("ck_change_what")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_change")),
    )
    op.create_index(op.f("ix_change_kind_row"), "change", ["kind", "row"], unique=False)
    op.create_table(
        "device",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=100), nullable=False),
        sa.Column("token_hash", sa.String(length=128), nullable=False),
        sa.Column("created_at", sa.String(32), nullable=False),
        sa.Column("seen_at", sa.String(32), nullable=False),
        sa.Column("revoked_at", sa.String(32), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device")),
        sa.UniqueConstraint("token_hash", name=op.f("uq_device_token_hash")),
    )
    op.create_table(
        "pairing",
        sa.Column("code_hash", sa.String(length=128), nullable=False),
        sa.Column("created_at", sa.String(32), nullable=False),
        sa.Column("expires_at", sa.String(32), nullable=False),
        sa.Column("used_at", sa.String(32), nullable=True),
        sa.PrimaryKeyConstraint("code_hash", name=op.f("pk_pairing")),
    )
    op.create_table(
        "passphrase",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("hash", sa.Text(), nullable=False),
        sa.Column("changed_at", sa.String(32), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_passphrase_one")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_passphrase")),
    )
    op.create_table(
        "setting",
        sa.Column("key", sa.String(length=100), nullable=False),
        sa.Column("choice", sa.JSON(none_as_null=True), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_setting")),
    )
    op.create_table(
        "task",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("day_key", sa.String(length=100), nullable=False),
        sa.Column("kind", sa.String(length=20), nullable=False),
        sa.Column("state", sa.String(length=20), nullable=False),
        sa.Column("progress", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("answer", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("error", sa.Text(), nullable=True),
        sa.Column("created_at", sa.String(32), nullable=False),
        sa.Column("changed_at", sa.String(32), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_task")),
    )
    op.create_index(op.f("ix_task_day_key"), "task", ["day_key"], unique=False)
    op.create_table(
        "day",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=100), nullable=False),
        sa.Column("date", sa.String(length=10), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("document", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.String(32), nullable=False),
        sa.Column("changed_at", sa.String(32), nullable=False),
        sa.Column("removed_at", sa.String(32), nullable=True),
        sa.Column("change_id", sa.Integer(), nullable=False),
        sa.CheckConstraint("version >= 1", name=op.f("ck_day_version")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_day")),
        sa.UniqueConstraint("key", name=op.f("uq_day_key")),
        sa.ForeignKeyConstraint(["change_id"], ["change.id"], name=op.f("fk_day_change_id")),
    )
    op.create_index(op.f("ix_day_date"), "day", ["date"], unique=False)
    op.create_table(
        "kitchen",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("document", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.String(32), nullable=False),
        sa.Column("changed_at", sa.String(32), nullable=False),
        sa.Column("removed_at", sa.String(32), nullable=True),
        sa.Column("change_id", sa.Integer(), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_kitchen_one")),
        sa.CheckConstraint("version >= 1", name=op.f("ck_kitchen_version")),
        sa.ForeignKeyConstraint(["change_id"], ["change.id"], name=op.f("fk_kitchen_change_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_kitchen")),
    )
    op.create_table(
        "recipe",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("slug", sa.String(length=100), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("food", sa.Text(), nullable=False),
        sa.Column("source_text", sa.Text(), nullable=False),
        sa.Column("document", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.String(32), nullable=False),
        sa.Column("changed_at", sa.String(32), nullable=False),
        sa.Column("removed_at", sa.String(32), nullable=True),
        sa.Column("change_id", sa.Integer(), nullable=False),
        sa.CheckConstraint("version >= 1", name=op.f("ck_recipe_version")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_recipe")),
        sa.UniqueConstraint("slug", name=op.f("uq_recipe_slug")),
        sa.ForeignKeyConstraint(["change_id"], ["change.id"], name=op.f("fk_recipe_change_id")),
    )
    op.create_table(
        "plan",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("day_id", sa.Integer(), nullable=False),
        sa.Column("made_at", sa.String(32), nullable=False),
        sa.Column("day_version", sa.Integer(), nullable=False),
        sa.Column("kitchen_version", sa.Integer(), nullable=False),
        sa.Column("recipes_version", sa.Integer(), nullable=False),
        sa.Column("tables", sa.String(length=100), nullable=False),
        sa.Column("answer", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("why", sa.JSON(none_as_null=True), nullable=True),
        sa.ForeignKeyConstraint(["day_id"], ["day.id"], name=op.f("fk_plan_day_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_plan")),
    )
    op.create_index(op.f("ix_plan_day_id"), "plan", ["day_id"], unique=False)
    op.create_table(
        "plan_file",
        sa.Column("plan_id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=20), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name=op.f("fk_plan_file_plan_id")),
        sa.PrimaryKeyConstraint("plan_id", "name", name=op.f("pk_plan_file")),
    )
