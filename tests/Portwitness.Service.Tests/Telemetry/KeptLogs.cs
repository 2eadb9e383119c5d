using System.Collections.Concurrent;
using Microsoft.Extensions.Logging;

namespace Portwitness.Service.Tests.Telemetry;

/// <summary>Keeps every log message.</summary>
internal sealed class KeptLogs : ILoggerProvider
{
    public ConcurrentQueue<string> Messages { get; } = [];

    public ILogger CreateLogger(string categoryName) => new Logger(this);

    public void Dispose()
    {
        // Nothing is held.
    }

    private sealed class Logger(KeptLogs logs) : ILogger
    {
        public IDisposable? BeginScope<TState>(TState state)
            where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => true;

        public void Log<TState>(
            LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter) =>
            logs.Messages.Enqueue($"{formatter(state, exception)} {exception}");
    }
}
