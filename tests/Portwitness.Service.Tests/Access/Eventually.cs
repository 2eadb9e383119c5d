namespace Portwitness.Service.Tests.Access;

/// <summary>Waits for what comes in its own time.</summary>
internal static class Eventually
{
    private static readonly TimeSpan Most = TimeSpan.FromSeconds(60);
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(50);

    public static async Task BeAsync(Func<Task<bool>> isSo)
    {
        DateTime end = DateTime.UtcNow + Most;
        while (!await isSo())
        {
            DateTime.UtcNow.Should().BeBefore(end, "it has to come to it by then");
            await Task.Delay(Pause);
        }
    }
}
