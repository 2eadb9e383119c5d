using System.Diagnostics;
using Npgsql;

namespace Portwitness.Endurance;

/// <summary>A database of the PostgreSQL server that PORTWITNESS_POSTGRES names.</summary>
internal static class TestDatabase
{
    public const string Variable = "PORTWITNESS_POSTGRES";

    /// <summary>Whether there is one.</summary>
    public static bool IsThere => Environment.GetEnvironmentVariable(Variable) is { Length: > 0 };

    /// <summary>Makes an empty database.</summary>
    public static async Task<string> CreateAsync()
    {
        string server = Environment.GetEnvironmentVariable(Variable) ?? throw new InvalidOperationException($"{Variable} is not set; tests/run starts a server.");
        string name = $"e{Guid.NewGuid():n}";
        await RunAsync($"{server}/postgres", $"CREATE DATABASE {name}");
        return $"{server}/{name}";
    }

    /// <summary>Restarts the server where that is possible; otherwise all connections to the database are dropped.</summary>
    public static async Task<string> InterruptAsync(string place)
    {
        if (Environment.GetEnvironmentVariable("PORTWITNESS_POSTGRES_RESTART") is { Length: > 0 } program)
        {
            using Process restart = Process.Start(program);
            await restart.WaitForExitAsync();
            NpgsqlConnection.ClearAllPools();
            return "restarted the database";
        }

        await RunAsync(place[..place.LastIndexOf('/')] + "/postgres", $"SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = '{place[(place.LastIndexOf('/') + 1)..]}'");
        return "dropped all connections of the database";
    }

    private static async Task RunAsync(string place, string statement)
    {
        Uri uri = new(place);
        NpgsqlConnectionStringBuilder settings = new() { Host = uri.Host, Port = uri.Port, Username = uri.UserInfo, Database = uri.AbsolutePath.Trim('/'), Pooling = false };
        await using NpgsqlConnection connection = new(settings.ConnectionString);
        await connection.OpenAsync();
        await using NpgsqlCommand command = new(statement, connection);
        await command.ExecuteNonQueryAsync();
    }
}
