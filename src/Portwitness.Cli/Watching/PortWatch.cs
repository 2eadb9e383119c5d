using System.Text;

namespace Portwitness.Cli.Watching;

/// <summary>Follows what is attached to a port of this computer: each attach is a list of its own.</summary>
/// <param name="folder">Where the kernel shows it.</param>
/// <param name="idle">Ends when nothing changed for so long; null for never.</param>
/// <param name="keep">Takes what is seen; null to keep nothing.</param>
/// <param name="time">The clock.</param>
internal sealed class PortWatch(PartnerFolder folder, TimeSpan? idle, KeptCapture? keep, TimeProvider time)
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(200);

    /// <summary>Follows it until it is stopped.</summary>
    /// <param name="onShown">Told of each list, as text.</param>
    /// <param name="onDetached">Told when the partner is taken away.</param>
    /// <param name="stop">Stops it.</param>
    public async Task RunAsync(Func<byte[], Task> onShown, Action onDetached, CancellationToken stop)
    {
        long started = time.GetTimestamp();
        long changed = started;
        (string? told, string? before) = (null, null);
        try
        {
            while (idle is not { } longest || time.GetElapsedTime(changed) < longest)
            {
                // The kernel makes a list file by file: what stays as it is for two looks is whole.
                string? now = folder.Read();
                if (now == before && now != told)
                {
                    changed = time.GetTimestamp();
                    await TellAsync(told, now, (long)time.GetElapsedTime(started).TotalMicroseconds, onShown, onDetached);
                    told = now;
                }

                before = now;
                await Task.Delay(Pause, time, stop);
            }
        }
        catch (OperationCanceledException) when (stop.IsCancellationRequested)
        {
            // Ctrl-C is how watching ends.
        }
    }

    private async Task TellAsync(string? told, string? now, long timeUs, Func<byte[], Task> onShown, Action onDetached)
    {
        if (now is null)
        {
            keep?.Detached(timeUs);
            onDetached();
            return;
        }

        byte[] shown = Encoding.UTF8.GetBytes(now);
        if (told is null)
        {
            keep?.Attached(timeUs, shown);
        }
        else
        {
            keep?.Shown(timeUs, shown);
        }

        await onShown(shown);
    }
}
