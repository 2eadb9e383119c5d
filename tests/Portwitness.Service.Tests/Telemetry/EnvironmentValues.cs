namespace Portwitness.Service.Tests.Telemetry;

/// <summary>Variables of this process's environment until it is disposed. Only for tests that run alone.</summary>
internal sealed class EnvironmentValues : IDisposable
{
    private readonly (string Name, string? Before)[] _before;

    public EnvironmentValues(params (string Name, string? Value)[] values)
    {
        _before = [.. values.Select(static one => (one.Name, Environment.GetEnvironmentVariable(one.Name)))];
        foreach ((string name, string? value) in values)
        {
            Environment.SetEnvironmentVariable(name, value);
        }
    }

    public void Dispose()
    {
        foreach ((string name, string? value) in _before)
        {
            Environment.SetEnvironmentVariable(name, value);
        }
    }
}
