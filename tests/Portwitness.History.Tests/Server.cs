namespace Portwitness.History.Tests;

/// <summary>The PostgreSQL server that tests/run starts.</summary>
internal static class Server
{
    private static string? Address => Environment.GetEnvironmentVariable("PORTWITNESS_POSTGRES");

    /// <summary>Why it cannot be tested here; null when it can, or in CI.</summary>
    public static string? Missing => Address is null && Environment.GetEnvironmentVariable("CI") != "true"
        ? "Set PORTWITNESS_POSTGRES to postgres://user@host:port of a server of Debian's package postgresql, or run tests/run." : null;

    /// <summary>A database of it.</summary>
    public static string Place(string database) => $"{Address ?? throw new InvalidOperationException("PORTWITNESS_POSTGRES is not set.")}/{database}";
}

/// <summary>A test that needs it.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NeedsPostgresFactAttribute : FactAttribute
{
    /// <summary>Asks for it.</summary>
    public NeedsPostgresFactAttribute() => Skip = Server.Missing;
}

/// <summary>The same with cases.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class NeedsPostgresTheoryAttribute : TheoryAttribute
{
    /// <summary>Asks for it.</summary>
    public NeedsPostgresTheoryAttribute() => Skip = Server.Missing;
}
