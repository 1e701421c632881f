"""What Alembic runs for each step: on the connection that it was given, within the transaction that is open on it."""

from alembic import context

if hasattr(context, "config"):  # only while Alembic runs it; whoever merely looks at the file has none
    context.configure(connection=context.config.attributes["connection"], transactional_ddl=True)
    with context.begin_transaction():
        context.run_migrations()
