using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Portwitness.Service.Hosting;

namespace Portwitness.Server.Http;

/// <summary>What whoever keeps the service running asks: does it live, can it work. Open to all, and without a secret.</summary>
internal static class KeeperRoutes
{
    /// <summary>Adds them.</summary>
    public static void Map(WebApplication app)
    {
        app.MapGet("/livez", static () => Results.Text("lives\n")).AllowAnonymous();
        app.MapGet("/readyz", static async context =>
        {
            string? problem = await context.RequestServices.GetRequiredService<Readiness>().ProblemAsync(context.RequestAborted);
            context.Response.StatusCode = problem is null ? StatusCodes.Status200OK : StatusCodes.Status503ServiceUnavailable;
            context.Response.ContentType = "text/plain; charset=utf-8";
            await context.Response.WriteAsync((problem is null ? "ready" : $"not ready: {problem}") + "\n", context.RequestAborted);
        }).AllowAnonymous();
    }
}
