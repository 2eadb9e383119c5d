using Portwitness.Cli.Shell;

namespace Portwitness.Cli.Tests;

public sealed class ProgressTests : IDisposable
{
    private readonly ManualTime _time = new();
    private readonly StringWriter _screen = new();

    public void Dispose() => _screen.Dispose();

    [Fact]
    public void LongReading_TellsBytesRateAndTimeLeft()
    {
        Progress progress = new(_screen, isWatched: true, _time);
        progress.Begin("c1.pcapng", 400_000_000);
        progress.Add(50_000_000);
        _screen.ToString().Should().BeEmpty("it may be done in a moment");

        _time.Now += TimeSpan.FromSeconds(2);
        progress.Add(50_000_000);
        progress.Add(1);
        progress.End();

        string line = "c1.pcapng: 100 MB of 400 MB read, 50 MB a second, 6 s left";
        _screen.ToString().Should().Be("\r" + line + "\r" + new string(' ', line.Length) + "\r");
    }

    [Fact]
    public void LengthThatIsNotKnown_HasNoTimeLeft()
    {
        Progress progress = new(_screen, isWatched: true, _time);
        progress.Begin("standard input", null);
        _time.Now += TimeSpan.FromSeconds(4);
        progress.Add(8000);

        _screen.ToString().Should().Be("\rstandard input: 8000 bytes read, 2000 bytes a second");
    }

    [Fact]
    public void NobodyWatching_NothingIsWritten()
    {
        Progress progress = new(_screen, isWatched: false, _time);
        progress.Begin("c1.pcapng", 10);
        _time.Now += TimeSpan.FromSeconds(9);
        progress.Add(5);
        progress.End();

        _screen.ToString().Should().BeEmpty();
    }

    private sealed class ManualTime : TimeProvider
    {
        public TimeSpan Now { get; set; } = TimeSpan.FromDays(1);

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => Now.Ticks;
    }
}
